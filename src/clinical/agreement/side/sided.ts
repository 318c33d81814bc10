import type { CaseRecord } from '../../../record/schema/record.js';
import { type BodyPart, bodyPartsIn } from '../../../trade/body.js';
import { fieldSides, type Side, type SideWord, sidesOf, sideWordsIn } from './words.js';

/** A target or a way in, with the side it is on. */
export interface Sided {
  readonly path: string;
  readonly key: string;
  readonly text: string;
  /** From its field and its own words, where they agree; both where they do not. */
  readonly sides: ReadonlySet<Side>;
  readonly parts: readonly BodyPart[];
}

function sided(path: string, key: string, text: string, field: string | undefined): Sided {
  const own = sidesOf(sideWordsIn(text));
  const said = fieldSides(field);
  return { path, key, text, sides: new Set([...said, ...own]), parts: bodyPartsIn(text) };
}

export const targetsOf = (record: CaseRecord): readonly Sided[] =>
  Object.entries(record.targets ?? {}).map(([key, { what, side }]) =>
    sided(`targets.${key}`, key, what.text, side),
  );

export const accessesOf = (record: CaseRecord): readonly Sided[] =>
  (record.access ?? []).map(({ key, site, side }, i) => sided(`access[${i}]`, key, site.text, side));

const regions = (parts: readonly BodyPart[]) => new Set(parts.map(({ region }) => region));

/** Those that a text about these parts may mean: the same part, else the same region. */
export function near(places: readonly Sided[], parts: readonly BodyPart[]): readonly Sided[] {
  const sidedOnes = places.filter(({ sides }) => sides.size > 0);
  const same = sidedOnes.filter(place => place.parts.some(part => parts.includes(part)));
  if (same.length > 0) return same;
  const wanted = regions(parts);
  return sidedOnes.filter(place => [...regions(place.parts)].some(region => wanted.has(region)));
}

export const allSides = (places: readonly Sided[]): ReadonlySet<Side> =>
  new Set(places.flatMap(({ sides }) => [...sides]));

/** Ways in that lie beside what is done: not a groin, from which either side is reached. */
const sameSided: ReadonlySet<string> = new Set(['neck', 'chest wall', 'thorax', 'kidney', 'breast']);

/** The places that a side in a text may mean. */
export function meant(
  word: SideWord,
  targets: readonly Sided[],
  accesses: readonly Sided[],
): readonly Sided[] {
  const sided = (places: readonly Sided[]) => places.filter(({ sides }) => sides.size > 0);
  const samePart = (places: readonly Sided[]) =>
    places.filter(place => place.parts.some(part => word.parts.includes(part)));
  if (word.wayIn)
    return samePart(sided(accesses)).length > 0 ? samePart(sided(accesses)) : near(targets, word.parts);
  const found = word.parts.length === 0 ? sided(targets) : near(targets, word.parts);
  if (found.length > 0) return found;
  const wall = word.parts.every(({ name }) => name === 'chest wall');
  const ways = wall
    ? accesses.filter(({ parts }) => parts.some(({ region }) => sameSided.has(region)))
    : samePart(accesses);
  return sided(ways);
}
