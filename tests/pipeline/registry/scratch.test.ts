import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Scratch } from '../../../src/pipeline/registry/scratch.js';
import { type Sighting, serialFindings } from '../../../src/pipeline/registry/serials.js';
import { grouped } from '../../../src/record/grouped.js';

type File = { readonly name?: string | undefined; readonly n: number };
const texts = fc.constantFrom('a', 'b', 'C-1', '', '__proto__', "'; DROP TABLE file; --", '\u{1f9ea}');

async function opened(): Promise<Scratch<File, { n: number }, { n: number }>> {
  return Scratch.open();
}

describe('what a build keeps on the disk', () => {
  it('is given back as a plain list would give it, however much there is', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.option(texts, { nil: undefined }), { maxLength: 700 }), async names => {
        const scratch = await opened();
        const files = names.map((name, n) => ({ name, n }));
        for (const file of files) scratch.add(file.name, file);
        for (const [n, file] of files.entries()) scratch.sight(`${file.name}`, n + 1, { n });
        for (const file of files) scratch.addLine(`${file.name}`, { n: file.n });
        expect([...scratch.files()].map(([, { n }]) => n)).toEqual(files.map(({ n }) => n));
        const groups = (all: readonly File[]) =>
          [...grouped(all, ({ name }) => `${name}`).values()]
            .filter(group => group.length > 1)
            .map(group => group.map(({ n }) => n));
        const named = files.filter(({ name }) => name !== undefined);
        expect([...scratch.repeated()].map(group => group.map(([, { n }]) => n))).toEqual(groups(named));
        expect([...scratch.sightings()].map(group => group.map(([, { n }]) => n))).toEqual(groups(files));
        const sorted = files.toSorted((a, b) =>
          Buffer.compare(Buffer.from(`${a.name}`), Buffer.from(`${b.name}`)),
        );
        expect([...scratch.lines()].map(({ n }) => n)).toEqual(sorted.map(({ n }) => n));
        scratch.close();
      }),
      { numRuns: 40 },
    );
  });

  it('can be changed while it is gone through', async () => {
    const scratch = await opened();
    for (let n = 0; n < 450; n += 1) scratch.add('a', { n });
    for (const [seq, { n }] of scratch.files()) scratch.replace(seq, { n: 1000 - n });
    expect([...scratch.files()].map(([, { n }]) => n)).toEqual(
      Array.from({ length: 450 }, (_, n) => 1000 - n),
    );
    scratch.close();
  });

  it('counts people who are alike once each, and no further than it matters', async () => {
    const scratch = await opened();
    for (const person of ['p', 'q', 'p', 'p']) scratch.addAlike('group', person, 5);
    expect([scratch.alike('group', 5), scratch.alike('another', 5)]).toEqual([2, 0]);
    for (let n = 0; n < 50; n += 1) scratch.addAlike('group', `${n}`, 5);
    expect(scratch.alike('group', 5)).toBe(5);
    scratch.close();
  });

  it('is gone when it is closed', async () => {
    const scratch = await opened();
    scratch.close();
    expect(() => scratch.add('a', { n: 1 })).toThrow(/not open/);
  });
});

describe('serial numbers of many cases', () => {
  /** Each against all before it. */
  function oneByOne(sightings: readonly Sighting[]): string[] {
    const ordered = sightings.toSorted((a, b) => (`${a.date} ${a.case}` < `${b.date} ${b.case}` ? -1 : 1));
    return ordered.flatMap((one, n) => {
      const other = ordered
        .slice(0, n)
        .find(({ case: of, patient }) => of !== one.case && (patient !== one.patient || !one.carried));
      return other ? [`${one.case} ${one.device} ${other.case}`] : [];
    });
  }

  it('are held against one another as if each were held against each', () => {
    const sighting = fc.record({
      di: fc.constant('09506000117843'),
      serial: fc.constant('S1'),
      case: fc.constantFrom('A', 'B', 'C', 'D', 'E'),
      date: fc.constantFrom('2024-01-01', '2024-01-02', '2024-01-03'),
      patient: fc.constantFrom('p', 'q', 'r'),
      device: fc.constantFrom('x', 'y'),
      carried: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.uniqueArray(sighting, { selector: one => `${one.date} ${one.case}` }), some => {
        // A case is of one patient.
        const patients = new Map(some.map(one => [one.case, one.patient]));
        const all = some.map(one => ({ ...one, patient: patients.get(one.case) ?? '' }));
        const found = serialFindings(all).map(
          ([of, { params }]) => `${of} ${String(params['device'])} ${String(params['case'])}`,
        );
        expect(found).toEqual(oneByOne(all));
      }),
    );
  });
});
