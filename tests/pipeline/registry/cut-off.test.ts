import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import { openBytes } from '../../../src/pipeline/open-case.js';
import {
  type BuildScratch,
  CaseCollector,
  type RegistryToBuild,
  type TakenCase,
} from '../../../src/pipeline/registry/collect.js';
import { Scratch } from '../../../src/pipeline/registry/scratch.js';
import { planCases, type SendWork, sendLines } from '../../../src/pipeline/registry/send.js';
import { settleBatches } from '../../../src/pipeline/registry/settle.js';
import type { Transport } from '../../../src/pipeline/registry/transport/transport.js';
import { definitionSchema } from '../../../src/registry/definition/schema.js';
import { registrySchema } from '../../../src/registry/options.js';
import { openSqliteSubmissions } from '../../../src/registry/store/open.js';
import type { Submissions } from '../../../src/registry/store/submissions.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { drainCase } from '../../support/drain-life.js';
import { testTools } from '../../support/examples.js';

const folder = mkdtempSync(join(tmpdir(), 'registry-cut-'));
afterAll(() => rmSync(folder, { recursive: true }));

const definition = definitionSchema.parse({
  ...{ registryDefinition: 1, name: 'Invented', version: '1', maxEntries: 2 },
  format: { kind: 'csv', columns: ['entry', 'version', 'status'] },
  transport: { kind: 'https', path: '{batch}' },
  answers: {
    ...{ kind: 'csv', fields: { entry: 'entry', version: 'version', result: 'result' } },
    results: { accepted: ['in'], refused: ['out'] },
  },
});
const toBuild: RegistryToBuild = {
  ...{ name: 'drains', definition, validator: testTools().validator },
  options: registrySchema.parse({ name: 'Drains' }),
  key: { id: 'k1', secret: Buffer.from('an invented secret of the test') },
};

/** A registry that keeps what it was given, whatever becomes of its answer. */
class InventedRegistry {
  /** Bytes of each batch, and how often it was put. */
  readonly batches = new Map<string, { readonly text: string; puts: number }>();

  take(id: string, text: string): string {
    const before = this.batches.get(id);
    if (before && before.text !== text) throw new Error('other bytes under one number');
    this.batches.set(id, { text, puts: (before?.puts ?? 0) + 1 });
    return this.answer(text);
  }

  answer(text: string): string {
    const lines = text.trim().split('\r\n').slice(1);
    const said = lines.map(line => `${line.split(',').slice(0, 2).join(',')},in`);
    return ['entry,version,result', ...said, ''].join('\n');
  }

  /** Every entry with its version, once for each batch that it is in. */
  entries(): string[] {
    return [...this.batches.values()].flatMap(({ text }) =>
      text
        .trim()
        .split('\r\n')
        .slice(1)
        .map(line => line.split(',').slice(0, 2).join(' ')),
    );
  }
}

class CutOff extends Error {}

/** Stops at a step as a power cut would: before it is done, or after it and before anybody hears of it. */
function cutAt(step: number, after: boolean) {
  let left = step;
  return async <T>(work: () => Promise<T>): Promise<T> => {
    left -= 1;
    if (left < 0) throw new CutOff();
    if (left > 0) return work();
    if (after) await work();
    throw new CutOff();
  };
}

type Cut = <T>(work: () => Promise<T>) => Promise<T>;

function withCuts<T extends object>(target: T, cut: Cut): T {
  return new Proxy(target, {
    get(of, name) {
      const value: unknown = Reflect.get(of, name, of);
      if (typeof value !== 'function') return value;
      return (...args: unknown[]) => cut(() => Promise.resolve(value.apply(of, args)));
    },
  });
}

function transportTo(registry: InventedRegistry): Transport {
  return {
    put: async (batch, content) => ({ kind: 'answered', text: registry.take(batch.id, content) }),
    async ask({ id }) {
      const there = registry.batches.get(id);
      return there ? { kind: 'answered', text: registry.answer(there.text) } : { kind: 'not arrived' };
    },
    answers: async () => [],
  };
}

async function collected(texts: readonly string[]): Promise<readonly TakenCase[]> {
  const scratch: BuildScratch = await Scratch.open();
  const collector = new CaseCollector(toBuild, scratch);
  const site = { site: unconfiguredSite, given: false, folder: '.' };
  for (const [n, text] of texts.entries()) collector.add(`${n}`, await openBytes(Buffer.from(text), site));
  const cases = [...collector.finish().cases];
  scratch.close();
  return cases;
}

let ids = 0;
async function sendAll(
  cases: readonly TakenCase[],
  registry: InventedRegistry,
  store: Submissions,
  cut: Cut,
) {
  const work: SendWork = {
    ...{ registry: 'drains', definition, toBuild, definitionDigest: 'x', settleMs: 0, software: 'casetally' },
    submissions: withCuts(store, cut),
    transport: withCuts(transportTo(registry), cut),
    clock: () => 1,
    newId: () => `b-${++ids}`,
  };
  await settleBatches(work);
  await sendLines(await planCases(cases, work), work);
}

describe('sending that is cut off at any step', () => {
  const first = [1, 2, 3].map(k =>
    drainCase({ id: `A${k}`, date: '2024-01-10', placed: `L${k}`, patient: `PT-${k}` }),
  );
  const later = [
    ...first.slice(0, 2),
    drainCase({ id: 'A3', date: '2024-01-10', placed: 'L9', patient: 'PT-3' }),
    drainCase({ id: 'A4', date: '2024-02-10', placed: 'L4', patient: 'PT-4' }),
  ];

  it.each([false, true])('loses nothing and sends nothing twice (after the step: %s)', async after => {
    const [one, two] = [await collected(first), await collected(later)];
    let cuts = 0;
    for (let step = 1; ; step += 1) {
      const store = await openSqliteSubmissions(join(folder, `${after}-${step}.db`), { sealing: unsealed });
      const registry = new InventedRegistry();
      let cut = false;
      const careful = async (cases: readonly TakenCase[], how: Cut) => {
        try {
          await sendAll(cases, registry, store, how);
        } catch (error) {
          if (!(error instanceof CutOff)) throw error;
          cut = true;
        }
      };
      const plain: Cut = work => work();
      const limited = cutAt(step, after);
      await careful(one, limited);
      await careful(two, limited);
      // Somebody starts it again, twice.
      await careful(two, plain);
      const settled = registry.entries().length;
      await careful(two, plain);
      const entries = registry.entries();
      expect([step, entries.length]).toEqual([step, settled]);
      // Three cases, one of them corrected, and one more; a correction may have met a first report that never went out.
      expect([step, new Set(entries).size]).toEqual([step, entries.length]);
      expect(new Set(entries.map(entry => entry.split(' ')[0])).size).toBe(4);
      expect(await store.counts('drains')).toEqual({
        ...{ open: 0, accepted: 4, duplicate: 0, refused: 0, missing: 0 },
      });
      expect([...registry.batches.values()].every(({ puts }) => puts === 1)).toBe(true);
      await store.close();
      if (!cut) break;
      cuts += 1;
    }
    // Every write, read and request of two runs was tried.
    expect(cuts).toBeGreaterThan(20);
  });
});
