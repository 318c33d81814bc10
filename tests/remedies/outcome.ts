import { type Finding, messageOf, stops } from '../../src/findings/finding.js';
import { assessParsed } from '../../src/pipeline/check.js';
import { parseCaseData } from '../../src/record/parse.js';
import { unconfiguredSite } from '../../src/site/site.js';
import type { Data } from './place.js';
import type { Told } from './told.js';

/** After every case of the bank and of the examples. */
const CHECKED = Date.parse('2026-11-28T00:00:00Z');

/** Everything that the check finds. */
export const checked = (data: Data): readonly Finding[] =>
  assessParsed(parseCaseData(data), unconfiguredSite, undefined, CHECKED).findings;

/** What reading alone finds: quicker, and enough for how a record is written. */
export const read = (data: Data): readonly Finding[] => parseCaseData(data).findings;

/** What a remedy came to that did not end its finding. */
export interface Lie {
  readonly found: Finding;
  readonly because: string;
}

/**
 * Does what the remedy of a finding says, in each of the ways that it names (`how`).
 * @returns how many ways there were, and what each came to that did not end the finding or made a new error
 */
export function tried(
  told: Told,
  before: readonly Finding[],
  foundIn: (data: Data) => readonly Finding[],
  how: (told: Told) => readonly Data[],
): { ways: number; lies: Lie[] } {
  const { found } = told;
  // Of a record that could be read in part only, more may come to light elsewhere: the check has said so.
  const inPart = before.some(f => f.code === 'record.checked-in-part');
  const all = how(told);
  const lies = all.flatMap((after): Lie[] => {
    const now = foundIn(after);
    const open = (list: readonly Finding[]) => list.filter(f => !f.acknowledged && same(f, found)).length;
    if (open(now) >= open(before)) return [{ found, because: 'it is still there' }];
    const known = new Set(before.filter(stops).map(placeOf));
    const fresh = now.find(
      f => stops(f) && !known.has(placeOf(f)) && (!inPart || f.path.startsWith(found.path)),
    );
    return fresh ? [{ found, because: `then ${placeOf(fresh)}: ${messageOf(fresh)}` }] : [];
  });
  return { ways: all.length, lies };
}

const unnumbered = (text: string) => text.replace(/\[\d+\]/g, '[]');

/** Where an entry was taken out the numbers of the others move up; what is said of it does not. */
const same = (one: Finding, other: Finding) =>
  one.code === other.code &&
  unnumbered(one.path) === unnumbered(other.path) &&
  unnumbered(messageOf(one)) === unnumbered(messageOf(other));

const placeOf = (f: Finding) => `${f.code} ${unnumbered(f.path)}`;
