import {
  type Attributes,
  type Context,
  ProxyTracerProvider,
  type Span,
  type SpanOptions,
  type Tracer,
  trace,
} from '@opentelemetry/api';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { deliveryLog, logEvent } from '../../../src/delivery/telemetry/log.js';
import { deliveryMetrics } from '../../../src/delivery/telemetry/metrics.js';
import { inSpan } from '../../../src/delivery/telemetry/traces.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { preparedExample } from '../../support/examples.js';
import { ALL_MODES, type HostileServer, type Mode, startHostile } from '../../support/hostile/server.js';
import { deps, destination } from '../samples.js';

/* Patient data must never leave by logs, figures or traces, whatever the server does. */

const payload = preparedExample('abscess-drain.yaml').submission;

/** Everything in the case that names, numbers or describes: each string of some length under such a key. */
function tellingWords(): Set<string> {
  const telling =
    /^(?:text|display|value|family|given|birthDate|lotNumber|serialNumber|deviceIdentifier|carrierHRF|name|div|reference|fullUrl|data|modelNumber|manufacturer)$/;
  const found = new Set<string>();
  const visit = (value: unknown, key: string): void => {
    // One word in small letters is a code of a list, and may be a word of ours too.
    if (typeof value === 'string' && telling.test(key) && value.length > 3 && !/^[a-z-]+$/.test(value))
      found.add(value);
    else if (Array.isArray(value)) for (const item of value) visit(item, key);
    else if (typeof value === 'object' && value !== null)
      for (const [k, inner] of Object.entries(value)) visit(inner, k);
  };
  visit(JSON.parse(payload), '');
  return found;
}
const words = tellingWords();

interface Recorded {
  readonly name: string;
  readonly attributes: Attributes;
  status?: unknown;
  ended: boolean;
}
const spans: Recorded[] = [];

/** The least that an SDK does: keeps what it is told. */
class KeepingTracer implements Tracer {
  startSpan(name: string, { attributes = {} }: SpanOptions = {}): Span {
    const kept: Recorded = { name, attributes: { ...attributes }, ended: false };
    spans.push(kept);
    const span: Span = {
      spanContext: () => ({ traceId: '0'.repeat(31) + 1, spanId: '0'.repeat(15) + 1, traceFlags: 1 }),
      setAttribute: (key, value) => span.setAttributes({ [key]: value }),
      setAttributes: more => {
        Object.assign(kept.attributes, more);
        return span;
      },
      addEvent: () => span,
      addLink: () => span,
      addLinks: () => span,
      setStatus: status => {
        kept.status = status;
        return span;
      },
      updateName: () => span,
      end: () => {
        kept.ended = true;
      },
      isRecording: () => true,
      recordException: () => {
        throw new Error('an exception can hold anything: it must not be recorded');
      },
    };
    return span;
  }
  startActiveSpan<F extends (span: Span) => unknown>(
    name: string,
    first: F | SpanOptions,
    second?: F | Context,
    third?: F,
  ): ReturnType<F> {
    const work = [first, second, third].find((x): x is F => typeof x === 'function');
    if (!work) throw new Error('no work');
    const options = typeof first === 'function' ? {} : first;
    return work(this.startSpan(name, options)) as ReturnType<F>;
  }
}

let server: HostileServer;
beforeAll(() => {
  const provider = new ProxyTracerProvider();
  provider.setDelegate({ getTracer: () => new KeepingTracer() });
  trace.setGlobalTracerProvider(provider);
});
afterAll(() => trace.disable());
beforeEach(async () => {
  server = await startHostile();
});
afterEach(async () => {
  spans.splice(0);
  await server.close();
});

async function run(mode: Mode, target = destination(server.baseUrl, { name: 'records', timeoutMs: 400 })) {
  server.plan(mode);
  const d = deps();
  const outbox = new MemoryOutbox(() => `item-${mode.length}`);
  const lines: string[] = [];
  const log = deliveryLog('debug', { write: line => void lines.push(line) });
  const metrics = deliveryMetrics(outbox, d.clock);
  const item = { destination: 'records', caseKey: 'c', patientKey: 'p', payload, digest: digestOf(payload) };
  const { id } = await outbox.put(item, d.clock());
  await drain({
    outbox,
    targets: [{ destination: target }],
    clock: d.clock,
    newId: d.newId,
    random: () => 0.5,
    traced: inSpan,
    onEvent: event => {
      metrics.observe(event);
      logEvent(log, event);
    },
    ...(d.sleep && { sleep: d.sleep }),
  });
  return { id, lines, figures: await metrics.text(), item: await outbox.get(id) };
}

const leaks = (text: string) => [...words].filter(word => text.includes(word));

describe('the canary', () => {
  it('has words to look for', () => {
    expect(words.size).toBeGreaterThan(100);
    expect(leaks(`x ${[...words][5]} y`)).not.toEqual([]);
  });

  it.each(ALL_MODES)(
    'nothing of the case is in logs, figures or traces when the server is or does "%s"',
    async mode => {
      const { id, lines, figures } = await run(mode);
      expect(lines.length).toBeGreaterThan(0);
      expect(spans.length).toBeGreaterThan(0);
      expect(leaks(lines.join(''))).toEqual([]);
      expect(leaks(figures)).toEqual([]);
      expect(leaks(JSON.stringify(spans))).toEqual([]);
      // One item is one thread through all of them.
      for (const line of lines) expect(JSON.parse(line)).toMatchObject({ item: id, destination: 'records' });
      expect(spans.map(span => [span.name, span.attributes['casetally.item'], span.ended])).toEqual(
        spans.map(() => ['casetally.attempt', id, true]),
      );
    },
  );

  it('nor when the server cannot be reached', async () => {
    const gone = destination(server.baseUrl, { name: 'records' });
    await server.close();
    const { lines, figures } = await run('obedient', gone);
    expect(leaks(lines.join('') + figures + JSON.stringify(spans))).toEqual([]);
    expect(figures).toContain('class="unreachable"');
  });
});

describe('what is told instead', () => {
  it('a delivery: request ids in the log are those that the server was sent', async () => {
    const { lines, figures } = await run('obedient');
    const told = lines.map(line => JSON.parse(line));
    expect(told.at(-1)).toMatchObject({ level: 'info', msg: 'attempt', came: 'delivered', attempts: 0 });
    const request = told.find(line => line.msg === 'request');
    expect(request).toMatchObject({ level: 'debug', status: 200, state: 'delivered', reason: 'accepted' });
    expect(spans[0]?.attributes['casetally.requests']).toBe(request.requestId);
    expect(figures).toContain(
      'casetally_delivery_outcomes_total{destination="records",came="delivered",reason="accepted"} 1',
    );
    expect(figures).toContain('casetally_outbox_items{destination="records",state="delivered"} 1');
    expect(figures).toContain('casetally_outbox_oldest_seconds{destination="records"} 0');
    expect(figures).toContain('casetally_delivery_request_seconds_count{destination="records"} 1');
  });

  it.each<[Mode, string, string]>([
    ['refuses the content', 'error', 'casetally_outbox_items{destination="records",state="parked"} 1'],
    ['answers 403', 'warn', 'casetally_destination_paused{destination="records"} 1'],
    ['answers 429 with seconds', 'warn', 'casetally_destination_closed_seconds{destination="records"} 7'],
    [
      'answers 401',
      'warn',
      'casetally_delivery_token_failures_total{destination="records",reason="unauthorised"} 1',
    ],
    [
      'drops the connection before it commits',
      'warn',
      'casetally_outbox_items{destination="records",state="unknown"} 1',
    ],
  ])('"%s": level %s, %s', async (mode, level, figure) => {
    const { lines, figures } = await run(mode);
    expect(JSON.parse(lines.at(-1) ?? '{}').level).toBe(level);
    expect(figures).toContain(figure);
  });

  it('of an error in a span its code and nothing of its message', async () => {
    await expect(
      inSpan('x', {}, async () => {
        throw new Error('Fintan Oakmarsh');
      }),
    ).rejects.toThrow();
    expect(JSON.stringify(spans)).not.toContain('Oakmarsh');
    expect(spans[0]).toMatchObject({ status: { message: 'fault' }, ended: true });
  });
});
