import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { entryDigest } from '../../src/registry/digest.js';
import type { EntryElements } from '../../src/registry/entry/elements.js';
import { type PresentCase, type PresentEntry, planCase } from '../../src/registry/plan.js';
import type { Line, LineState } from '../../src/registry/store/submissions.js';
import { elementsOf, lineOf } from './made.js';

const present = (entries: readonly PresentEntry[], more: Partial<PresentCase> = {}): PresentCase => ({
  ...{ entries, caseVersion: 2, step: 0 },
  number: { system: 'https://ids.harbour.example/mrn', value: '4711' },
  ...more,
});
const entry = (device: string, more: Partial<EntryElements> = {}, fit = true): PresentEntry => ({
  name: { case: 'A', device },
  elements: elementsOf(device, more),
  fit,
});
const sent = (device: string, state: LineState, more: Partial<Line> = {}): Line =>
  lineOf(device, { state, digest: entryDigest(elementsOf(device)), ...more });
const plan = (entries: readonly PresentEntry[], lines: readonly Line[], recent: string[] = []) => {
  const { lines: out, waiting, refused, missing } = planCase(present(entries), lines, new Set(recent));
  return {
    lines: out.map(({ name, version, elements }) => [name.device, version, elements.status]),
    ...{ waiting: waiting.length, refused: refused.length, missing: missing.length },
  };
};
const nothing = { lines: [], waiting: 0, refused: 0, missing: 0 };

describe('what a registry is to hear of a case', () => {
  it('is each entry that is new', () => {
    expect(plan([entry('drain')], [])).toEqual({ ...nothing, lines: [['drain', 1, 'active']] });
  });

  it.each(['accepted', 'duplicate', 'open'] as const)('is nothing of what is %s and unchanged', state => {
    expect(plan([entry('drain')], [sent('drain', state)])).toEqual(nothing);
  });

  it('is a changed entry as its next version, once the registry answered on the one before', () => {
    const changed = entry('drain', { lot: 'L2' });
    for (const state of ['accepted', 'refused', 'missing'] as const)
      expect(plan([changed], [sent('drain', state)]).lines).toEqual([['drain', 2, 'active']]);
    expect(plan([changed], [sent('drain', 'open')])).toEqual({ ...nothing, waiting: 1 });
    // A server whose search lags would make it twice.
    expect(plan([changed], [sent('drain', 'accepted')], ['b-1'])).toEqual({ ...nothing, waiting: 1 });
  });

  it('is not what was refused or left out, while it says the same', () => {
    expect(plan([entry('drain')], [sent('drain', 'refused')])).toEqual({ ...nothing, refused: 1 });
    expect(plan([entry('drain')], [sent('drain', 'missing')])).toEqual({ ...nothing, missing: 1 });
  });

  it('takes back what the case no longer has, unless the registry never took it', () => {
    expect(plan([], [sent('drain', 'accepted')]).lines).toEqual([['drain', 2, 'entered-in-error']]);
    expect(plan([], [sent('drain', 'missing')]).lines).toEqual([['drain', 2, 'entered-in-error']]);
    expect(plan([], [sent('drain', 'refused')])).toEqual(nothing);
    const gone = elementsOf('drain', { status: 'entered-in-error' });
    expect(plan([], [sent('drain', 'accepted', { elements: gone })])).toEqual(nothing);
  });

  it('neither sends nor takes back what an error holds back', () => {
    expect(plan([entry('drain', { lot: 'L2' }, false)], [sent('drain', 'accepted')])).toEqual(nothing);
  });

  it('does not tell of a withdrawn case that the registry never heard of', () => {
    const withdrawn = entry('drain', { status: 'entered-in-error' });
    expect(plan([withdrawn], [])).toEqual(nothing);
    expect(plan([withdrawn], [sent('drain', 'accepted')]).lines).toEqual([['drain', 2, 'entered-in-error']]);
  });

  it('stays as coarse as it was sent, whoever came since', () => {
    const elements = elementsOf('drain', { date: '2024' });
    const coarse = sent('drain', 'accepted', { coarser: 2, elements, digest: entryDigest(elements) });
    expect(planCase(present([entry('drain')]), [coarse], new Set()).lines).toEqual([]);
    const [next] = planCase(present([entry('drain', { lot: 'L2' })]), [coarse], new Set()).lines;
    expect(next?.elements).toMatchObject({ date: '2024', lot: 'L2' });
    // And what went out finer is not sent again to make it coarser.
    expect(
      planCase(present([entry('drain')], { step: 2 }), [sent('drain', 'accepted')], new Set()).lines,
    ).toEqual([]);
  });

  it('does not go again for a new key: what it says is the same', () => {
    const renewed = entry('drain', { entry: 'k2.e', patient: 'k2.p', case: 'k2.c', unit: 'k2.u' });
    expect(plan([renewed], [sent('drain', 'accepted')])).toEqual(nothing);
  });

  it('comes to rest: whatever was sent and answered, a second time there is nothing new', () => {
    const devices = ['a', 'b', 'c'];
    const some = fc.subarray(devices);
    const lots = fc.constantFrom('L1', 'L2');
    fc.assert(
      fc.property(some, some, lots, lots, (first, second, one, other) => {
        const round = (names: string[], lot: string, before: readonly Line[]): Line[] => {
          const { lines } = planCase(present(names.map(name => entry(name, { lot }))), before, new Set());
          const made = lines.map(line => lineOf(line.name.device, { ...line, state: 'accepted' }));
          return [
            ...before.filter(line => !made.some(({ name }) => name.device === line.name.device)),
            ...made,
          ];
        };
        const after = round(second, other, round(first, one, []));
        expect(round(second, other, after)).toEqual(after);
        const standing = after.filter(({ elements }) => elements.status !== 'entered-in-error');
        expect(standing.map(({ name }) => name.device).sort()).toEqual([...second].sort());
      }),
    );
  });
});
