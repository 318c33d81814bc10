import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { destinationAt } from '../../src/delivery/destination/destination.js';
import { messageOf } from '../../src/findings/finding.js';
import { checkCase } from '../../src/pipeline/check.js';
import { type PreparedCase, prepareCase } from '../../src/pipeline/prepare.js';
import { submitCase } from '../../src/pipeline/send-case.js';
import { loadTools } from '../../src/pipeline/tools.js';
import { type RunningSandbox, startSandbox } from '../../src/service/sandbox/server.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { exampleFiles, exampleText, knownExample } from '../support/examples.js';

/** Addresses of the examples are nobody's: that is told of every one, and is not about the server. */
const ofServer = ({ code }: { readonly code: string }) => code !== 'delivery.reserved-host';

describe('all examples at one server', () => {
  let server: RunningSandbox;
  beforeAll(async () => {
    server = await startSandbox();
  });
  afterAll(() => server.close());

  it.each(exampleFiles)(
    '%s is accepted beside the others, and changes nothing when sent again',
    async file => {
      const { destination } = destinationAt(server.baseUrl);
      if (!destination) throw new Error('no destination');
      const deps = { clock: () => Date.now(), newId: () => randomUUID() };
      const prepared = knownExample(file);
      const first = await submitCase(prepared, destination, deps);
      expect(first.findings.filter(ofServer).map(f => messageOf(f))).toEqual([]);
      expect(first.state).toBe('delivered');
      const held = server.repository.all().length;
      const second = await submitCase(prepared, destination, deps);
      expect(second.state).toMatch(/^delivered/);
      expect(server.repository.all().length).toBe(held);
    },
  );
});

describe('a case that was sent before', () => {
  let server: RunningSandbox;
  beforeAll(async () => {
    server = await startSandbox();
  });
  afterAll(() => server.close());

  const [file = ''] = exampleFiles;
  const send = (prepared: PreparedCase) => {
    const { destination } = destinationAt(server.baseUrl);
    if (!destination) throw new Error('no destination');
    return submitCase(prepared, destination, { clock: () => Date.now(), newId: () => randomUUID() });
  };
  function preparedBy(release: string, text: string): PreparedCase {
    const { record, assessment } = checkCase(text, unconfiguredSite);
    if (!record || !assessment) throw new Error('not readable');
    return prepareCase(record, assessment, unconfiguredSite, loadTools(release));
  }

  it('is the same case to another release of the software', async () => {
    expect((await send(preparedBy('1.0.0', exampleText(file)))).state).toBe('delivered');
    const held = server.repository.all().length;
    const second = await send(preparedBy('1.0.1', exampleText(file)));
    // The embedded server made the encounter from the case, which has no period to compare.
    const told = second.findings.filter(f => ofServer(f) && f.code !== 'delivery.not-compared');
    expect(told.map(f => messageOf(f))).toEqual([]);
    expect(second.state).toBe('delivered-already');
    expect(server.repository.all().length).toBe(held);
  });

  it('is another one when its aftercare was changed without a new version, and a person is told', async () => {
    const changed = exampleText(file).replace('Ultrasound or CT of the cavity', 'CT of the cavity');
    expect(changed).not.toBe(exampleText(file));
    const outcome = await send(preparedBy('1.0.1', changed));
    expect(outcome.state).toBe('conflict');
    expect(outcome.findings.map(f => messageOf(f)).join('\n')).toContain('ServiceRequest.code.text');
  });
});
