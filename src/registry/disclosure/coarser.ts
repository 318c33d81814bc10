import { textsOf } from '../definition/agreed.js';
import type { RegistryDefinition } from '../definition/schema.js';
import type { ElementName, EntryElements } from '../entry/elements.js';

type Alike = NonNullable<RegistryDefinition['alike']>;

/**
 * The steps by which an entry is made less precise, the date before the age: what each does to an entry that had all
 * those before. Step 0 is the entry as agreed.
 */
export const COARSER = ['as agreed', 'month', 'year', 'ten years', 'no age'] as const;

const DATES = ['date', 'placed', 'ended', 'nextReview'] as const satisfies readonly ElementName[];

/** An entry that is as coarse as a step says; one that is coarser already stays as it is. */
export function coarser(entry: EntryElements, step: number): EntryElements {
  if (step === 0) return entry;
  const length = step >= COARSER.indexOf('year') ? 4 : 7;
  const dates = DATES.flatMap(name => {
    const value = entry[name];
    return value === undefined ? [] : [[name, value.slice(0, length)] as const];
  });
  const changed: EntryElements = { ...entry, ...Object.fromEntries(dates) };
  // Days inside would give back what the dates no longer say, where one of them is known from elsewhere.
  const { dwellDays: _, ...undated } = changed;
  if (step < COARSER.indexOf('ten years')) return undated;
  const { ageGroup, ...ageless } = undated;
  if (ageGroup === undefined || step >= COARSER.indexOf('no age')) return ageless;
  return { ...ageless, ageGroup: tenYears(ageGroup) };
}

function tenYears(group: string): string {
  if (group.endsWith('+')) return group;
  const low = Math.floor(Number.parseInt(group, 10) / 10) * 10;
  return `${low}-${low + 9}`;
}

/** Which steps make an entry of these settings coarser at all; those that change nothing are passed over. */
export function stepsFor(entry: EntryElements): number[] {
  const seen = new Set<string>();
  return COARSER.flatMap((_, step) => {
    const text = JSON.stringify(coarser(entry, step));
    if (seen.has(text)) return [];
    seen.add(text);
    return [step];
  });
}

/** What people are alike in, at a step: those whose group is the same cannot be told apart by it. */
export function groupOf(entry: EntryElements, step: number, { elements }: Alike): string {
  const seen = coarser(entry, step);
  return JSON.stringify([step, ...elements.map(name => textsOf(seen[name]))]);
}

/**
 * How coarse the entries of a case are to be: the first step at which enough people are alike in each of them. All
 * entries of a case are as coarse as the one that needs it most, since they name the same case.
 *
 * @param counts how many people are in a group
 * @param least step that it is not to go below: what was sent finer stays as it was sent
 * @returns undefined where there are too few even at the last step
 */
export function stepOf(
  entries: readonly EntryElements[],
  alike: Alike,
  counts: ReadonlyMap<string, number>,
  least = 0,
): number | undefined {
  const steps = [...new Set(entries.flatMap(stepsFor))].filter(step => step >= least).sort((a, b) => a - b);
  return steps.find(step =>
    entries.every(entry => (counts.get(groupOf(entry, step, alike)) ?? 0) >= alike.least),
  );
}

/** Every group that entries of a case may be counted in. */
export const groupsOf = (entries: readonly EntryElements[], alike: Alike): string[] => [
  ...new Set(entries.flatMap(entry => COARSER.map((_, step) => groupOf(entry, step, alike)))),
];

/** The last step: as coarse as an entry can be. */
export const COARSEST = COARSER.length - 1;
