import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isDelivered } from '../../src/delivery/answer/outcome.js';
import type { Destination } from '../../src/delivery/destination/destination.js';
import { MemoryOutbox } from '../../src/delivery/outbox/memory-outbox.js';
import { sendDurably } from '../../src/delivery/worker/send-durably.js';
import { messageOf } from '../../src/findings/finding.js';
import { submissionFor } from '../../src/pipeline/in-version.js';
import { outboxItem } from '../../src/pipeline/outbox-item.js';
import type { PreparedCase } from '../../src/pipeline/prepare.js';
import { submitCase } from '../../src/pipeline/send-case.js';
import { type RunningSandbox, startSandbox } from '../../src/service/sandbox/server.js';
import { deps, destination } from '../delivery/samples.js';
import { firstText, knownVersion, secondText, site } from '../support/corrected.js';

const MODES = ['transaction', 'batch', 'single'] as const;
const changes = MODES.flatMap(from => MODES.filter(to => to !== from).map(to => [from, to] as const));

let first: PreparedCase;
let second: PreparedCase;
let server: RunningSandbox;
beforeAll(async () => {
  first = knownVersion(firstText);
  second = knownVersion(secondText, firstText);
});

describe.each(changes)('a destination set from %s to %s', (from, to) => {
  beforeAll(async () => {
    server = await startSandbox();
  });
  afterAll(() => server.close());
  const at = (mode: Destination['mode']) => destination(server.baseUrl, { mode, timeoutMs: 60_000 });

  it('has the case that it was sent before, and nothing new', async () => {
    const before = await submitCase(first, at(from), deps({ clock: Date.now }));
    expect(before.state).toBe('delivered');
    const held = server.repository.all().length;
    const again = await submitCase(first, at(to), deps({ clock: Date.now }));
    if (!isDelivered(again)) throw new Error(again.findings.map(f => messageOf(f)).join('\n'));
    expect(server.repository.all().length).toBe(held);
  });

  it('takes the next version over what was sent before', async () => {
    const { sourceOf: _, ...d } = deps({ clock: Date.now, newId: randomUUID });
    const outbox = new MemoryOutbox(randomUUID);
    const send = (prepared: PreparedCase, mode: Destination['mode']) => {
      const target = { destination: at(mode) };
      const { submission = '' } = submissionFor(prepared, target.destination);
      const item = outboxItem(prepared, submission, target.destination.name, site.namespace, undefined);
      return sendDurably(item, { ...d, outbox, targets: [target], random: () => 0.5 });
    };
    expect((await send(first, from)).item.state).toBe('delivered');
    const { item, findings } = await send(second, to);
    expect([item.state, findings.filter(f => f.severity === 'error').map(f => messageOf(f))]).toEqual([
      'delivered',
      [],
    ]);
  });
});
