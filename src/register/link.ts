import { bodyPartsIn } from '../trade/body.js';
import type { DeviceFact } from './facts.js';
import type { Contradiction, Evidence } from './use.js';

/** A use as far as a device of a later case is held against it. */
export interface OpenUse
  extends Pick<
    DeviceFact,
    'device' | 'part' | 'kind' | 'family' | 'di' | 'lot' | 'serial' | 'site' | 'side'
  > {
  readonly id: string;
  /** Case that placed it, or told of it first. */
  readonly case: string;
  /** All names that it goes by: `CASE/DEVICE` of each case that spoke of it. */
  readonly names: ReadonlySet<string>;
  /** Cases that spoke of it. */
  readonly cases: ReadonlySet<string>;
  readonly placed?: string | undefined;
  readonly inside: number;
}

/** A carried device as a case tells of it. */
export interface Sighting {
  readonly fact: DeviceFact;
  /** Day of the case. */
  readonly date: string;
  /** Name of the earlier case that it names. */
  readonly earlier?: string | undefined;
}

/** What came of looking for the use of a carried device. */
export type Linked =
  | { readonly kind: 'linked'; readonly use: string; readonly evidence: Evidence }
  | {
      readonly kind: 'open';
      readonly why: 'several fit' | 'contradiction' | 'proposed';
      readonly candidates: readonly string[];
      readonly against: readonly Contradiction[];
    }
  | { readonly kind: 'none' };

/**
 * Finds the use that a carried device is, among those that are open in the same person. The first rule that fits any
 * decides: if it fits exactly one and nothing contradicts, that is the one; if it fits several, or something
 * contradicts, a person decides. Kind and place alone never link: they propose.
 */
export function linkOf(sighting: Sighting, open: readonly OpenUse[]): Linked {
  for (const { evidence, fits } of rules) {
    const found = open.filter(use => fits(sighting, use));
    const free = found.filter(use => contradictions(sighting, use).length === 0);
    const named = sighting.fact.carried?.use;
    if (evidence === 'use' && named !== undefined && found.length === 0)
      return { kind: 'open', why: 'contradiction', candidates: [named], against: ['use'] };
    if (found.length === 0 || (evidence === 'place' && free.length === 0)) continue;
    if (evidence === 'place') return { kind: 'open', why: 'proposed', candidates: ids(free), against: [] };
    if (free.length > 1) return { kind: 'open', why: 'several fit', candidates: ids(free), against: [] };
    const [only] = free;
    if (only) return { kind: 'linked', use: only.id, evidence };
    const against = [...new Set(found.flatMap(use => contradictions(sighting, use)))];
    return { kind: 'open', why: 'contradiction', candidates: ids(found), against };
  }
  return { kind: 'none' };
}

const ids = (uses: readonly OpenUse[]) => uses.map(({ id }) => id).sort();

const rules: readonly {
  readonly evidence: Evidence | 'place';
  readonly fits: (sighting: Sighting, use: OpenUse) => boolean;
}[] = [
  {
    evidence: 'use',
    fits: ({ fact }, use) => fact.carried?.use !== undefined && use.names.has(fact.carried.use),
  },
  {
    evidence: 'case',
    // Of the devices that the earlier case left, those of the same family.
    fits: ({ fact, earlier }, use) =>
      earlier !== undefined && use.cases.has(earlier) && use.family === fact.family && use.part === undefined,
  },
  {
    evidence: 'serial',
    fits: ({ fact }, use) => both(fact.di, use.di) && both(fact.serial, use.serial),
  },
  {
    evidence: 'lot',
    fits: ({ fact }, use) => both(fact.di, use.di) && both(fact.lot, use.lot),
  },
  { evidence: 'place', fits: ({ fact }, use) => sameKindAndPlace(fact, use) },
];

/** True where a device of a case stands for the same kind at the same place as a use. */
export function sameKindAndPlace(
  fact: Pick<DeviceFact, 'family' | 'kind' | 'site' | 'side'>,
  use: Pick<OpenUse, 'family' | 'kind' | 'site' | 'side' | 'part'>,
): boolean {
  return (
    use.part === undefined &&
    fact.family === use.family &&
    sidesAgree(fact.side, use.side) &&
    placesAgree(fact.site, use.site)
  );
}

const both = (a: string | undefined, b: string | undefined) => a !== undefined && a === b;
const differ = (a: string | undefined, b: string | undefined) =>
  a !== undefined && b !== undefined && a !== b;

/** What speaks against a carried device being a use, however well something else fits. */
export function contradictions({ fact, date, earlier }: Sighting, use: OpenUse): Contradiction[] {
  const found: Contradiction[] = [];
  if (differ(fact.di, use.di)) found.push('identifier');
  if (differ(fact.serial, use.serial)) found.push('serial');
  if (!differ(fact.di, use.di) && differ(fact.lot, use.lot)) found.push('lot');
  if (!sidesAgree(fact.side, use.side)) found.push('side');
  if (fact.family !== use.family) found.push('kind');
  if (!datesAgree(fact.carried?.date, use.placed) || (use.placed !== undefined && use.placed > date))
    found.push('dates');
  if (earlier !== undefined && !use.cases.has(earlier)) found.push('case');
  if (fact.count > use.inside) found.push('count');
  return found;
}

/** Unknown agrees with anything, and both with either. */
function sidesAgree(a: DeviceFact['side'], b: DeviceFact['side']): boolean {
  return a === undefined || b === undefined || a === b || a === 'both' || b === 'both';
}

/** Dates of any precision agree when the coarser one is the beginning of the other. */
function datesAgree(a: string | undefined, b: string | undefined): boolean {
  return a === undefined || b === undefined || a.startsWith(b) || b.startsWith(a);
}

/** Two places agree unless both name parts of the body, and none in common. */
function placesAgree(a: string | undefined, b: string | undefined): boolean {
  if (a === undefined || b === undefined) return true;
  const [one, other] = [partsOf(a), partsOf(b)];
  return one.size === 0 || other.size === 0 || [...one].some(part => other.has(part));
}

const partsOf = (text: string): ReadonlySet<string> => new Set(bodyPartsIn(text).map(({ name }) => name));
