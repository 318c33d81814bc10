import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finding } from '../../../src/findings/finding.js';
import { DigestSet } from '../../../src/pipeline/bulk/digests.js';
import { folderName, lineFolderName } from '../../../src/pipeline/bulk/folder-name.js';
import { linesOf } from '../../../src/pipeline/bulk/lines.js';
import { BulkTally } from '../../../src/pipeline/bulk/tally.js';
import { Turns } from '../../../src/pipeline/bulk/turns.js';

const digestOf = (text: string) => createHash('sha256').update(text).digest('hex');

describe('a set of digests', () => {
  it('knows what was added and nothing else, through every growth', () => {
    const set = new DigestSet();
    for (let n = 0; n < 5000; n += 1) set.add(digestOf(`in ${n}`));
    for (let n = 0; n < 5000; n += 7) set.add(digestOf(`in ${n}`));
    expect(set.size).toBe(5000);
    for (let n = 0; n < 5000; n += 1) {
      expect(set.has(digestOf(`in ${n}`))).toBe(true);
      expect(set.has(digestOf(`out ${n}`))).toBe(false);
    }
  });

  it('holds digests that begin alike apart', () => {
    const [a, b] = ['0'.repeat(64), `${'0'.repeat(31)}1${'0'.repeat(32)}`];
    const set = new DigestSet();
    set.add(a);
    expect([set.has(a), set.has(b)]).toEqual([true, false]);
  });
});

describe('folders for outputs', () => {
  it.each([
    ['d-0417.yaml', 'd-0417'],
    ['D-0417.yaml', /^D-0417\.[0-9a-f]{16}$/],
    ['d-0417.yml', /^d-0417\.[0-9a-f]{16}$/],
    ['2024/05/d.yaml', /^2024-05-d\.[0-9a-f]{16}$/],
    ['../../etc/passwd.yaml', /^etc-passwd\.[0-9a-f]{16}$/],
    ['con.yaml', /^case\.[0-9a-f]{16}$/],
    ['..yaml', /^case\.[0-9a-f]{16}$/],
    ['Ωμέγα.yaml', /^case\.[0-9a-f]{16}$/],
    [`${'a'.repeat(200)}.yaml`, /^a{60}\.[0-9a-f]{16}$/],
  ])('%s', (name, folder) => {
    expect(folderName(name)).toMatch(typeof folder === 'string' ? new RegExp(`^${folder}$`) : folder);
  });

  it('are one segment of a path, and no two names have the same one', () => {
    const part = fc.oneof(fc.constantFrom('a', 'A', 'b.c', '..', '.', 'nul', 'ß', '\\', ' '), fc.string());
    const name = fc.tuple(
      fc.array(part, { minLength: 1, maxLength: 3 }),
      fc.constantFrom('.yaml', '.yml', '.json'),
    );
    fc.assert(
      fc.property(
        fc.uniqueArray(
          name.map(([parts, ending]) => parts.join('/') + ending),
          { minLength: 2 },
        ),
        names => {
          const folders = names.map(one => folderName(one).toLowerCase());
          for (const folder of folders) expect(folder).toMatch(/^[a-z0-9_][a-z0-9_-]*(?:\.[0-9a-f]{16})?$/);
          expect(new Set(folders).size).toBe(names.length);
        },
      ),
    );
  });

  it('of a line are the same wherever in the file it stands', () => {
    expect(lineFolderName('may.ndjson', digestOf('x'))).toBe(`may.${digestOf('x').slice(0, 16)}`);
  });
});

describe('lines of a file', () => {
  async function lines(chunks: readonly (string | Uint8Array)[], longest = 100) {
    async function* source() {
      for (const chunk of chunks) yield typeof chunk === 'string' ? new TextEncoder().encode(chunk) : chunk;
    }
    const found = [];
    for await (const { bytes, ...line } of linesOf(source(), longest))
      found.push({ ...line, text: bytes && Buffer.from(bytes).toString('utf8') });
    return found;
  }

  it('leave out marks, blank lines and the ends of lines of either kind', async () => {
    expect(await lines(['\ufeff{"a":1}\r\n\r\n  \t\n{"b":2}\n\n{"c":3}'])).toEqual([
      { number: 1, size: 7, upTo: 12, ended: true, text: '{"a":1}' },
      { number: 4, size: 7, upTo: 26, ended: true, text: '{"b":2}' },
      { number: 6, size: 7, upTo: 34, ended: false, text: '{"c":3}' },
    ]);
    expect(await lines([])).toEqual([]);
    expect(await lines(['\ufeff\r\n'])).toEqual([]);
  });

  it('that are too long are passed through without being held', async () => {
    const long = Array.from({ length: 100 }, () => 'x'.repeat(1000));
    expect(await lines(['{}\n', ...long, '\n{}\n'])).toEqual([
      { number: 1, size: 2, upTo: 3, ended: true, text: '{}' },
      { number: 2, size: 100_000, upTo: 100_004, ended: true, text: undefined },
      { number: 3, size: 2, upTo: 100_007, ended: true, text: '{}' },
    ]);
    expect(await lines(['123456\n12345\r\n'], 5)).toMatchObject([
      { number: 1, size: 6, text: undefined },
      { number: 2, size: 5, text: '12345' },
    ]);
  });

  it('are the same however the file comes in pieces', async () => {
    const text = '\ufeffone\r\n\r\n\ntwo\r\nthree is long\r\n\u00e4\n\r\nlast';
    const bytes = new TextEncoder().encode(text);
    const whole = await lines([bytes], 8);
    await fc.assert(
      fc.asyncProperty(fc.array(fc.nat(bytes.length)), async cuts => {
        const places = [0, ...cuts.sort((a, b) => a - b), bytes.length];
        const pieces = places.slice(1).map((to, i) => bytes.subarray(places[i], to));
        expect(await lines(pieces, 8)).toEqual(whole);
      }),
    );
  });
});

describe('turns', () => {
  it('let jobs of one case go in their order, and others at once', async () => {
    const turns = new Turns();
    const went: number[] = [];
    const declare = (job: number, ofCase: string) =>
      void turns.declare(job, ofCase).then(() => went.push(job));
    for (const job of [1, 2, 3, 4]) turns.begin(job);
    declare(2, 'a');
    declare(3, 'b');
    await Promise.resolve();
    // Nobody knows yet what the first is about.
    expect(went).toEqual([]);
    declare(1, 'a');
    await Promise.resolve();
    expect(went.sort()).toEqual([1, 3]);
    turns.end(3);
    declare(4, 'a');
    await Promise.resolve();
    expect(went).toEqual([1, 3]);
    turns.end(1);
    await Promise.resolve();
    expect(went).toEqual([1, 3, 2]);
    turns.end(2);
    await Promise.resolve();
    expect(went).toEqual([1, 3, 2, 4]);
  });

  it('are never in each other’s way for good, and never two of one case at once', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.record({
            of: fc.constantFrom('a', 'b', 'c', ''),
            ticks: fc.array(fc.nat(5), { minLength: 2, maxLength: 2 }),
          }),
          {
            minLength: 1,
            maxLength: 12,
          },
        ),
        async jobs => {
          const turns = new Turns();
          const at = new Map<string, number[]>();
          for (const job of jobs.keys()) turns.begin(job);
          const wait = async (ticks = 0) => {
            for (let tick = 0; tick < ticks; tick += 1) await Promise.resolve();
          };
          await Promise.all(
            jobs.map(async ({ of, ticks: [before, within] }, job) => {
              await wait(before);
              // One in four ends before it has said what it is about.
              if (of !== '') {
                await turns.declare(job, of);
                at.set(of, [...(at.get(of) ?? []), job, job]);
                await wait(within);
                expect(at.get(of)?.at(-1)).toBe(job);
              }
              turns.end(job);
            }),
          );
          for (const order of at.values()) expect(order).toEqual([...order].sort((a, b) => a - b));
        },
      ),
    );
  });
});

describe('a tally of cases', () => {
  it('counts each code once a case, the worst first', () => {
    const tally = new BulkTally();
    const [link, cut] = [finding('bulk.link', '', {}), finding('bulk.cut-off', '', {})];
    tally.case([link, link, cut], true);
    tally.case([cut], false);
    tally.case([{ ...cut, severity: 'error' }], true);
    expect(tally).toMatchObject({ done: 1, setAside: 2 });
    expect(tally.rows()).toEqual([
      { code: 'bulk.link', severity: 'fatal', cases: 1, setAside: 1 },
      { code: 'bulk.cut-off', severity: 'error', cases: 3, setAside: 2 },
    ]);
  });
});
