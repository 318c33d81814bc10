import type { Token } from '../text/tokens.js';
import type { Meant, ProposedDevice } from '../types.js';
import { familyNamed, type OnTable } from './table.js';

/** Where a device must be for what is said of it. */
export type Where = 'inside' | 'outside' | 'anywhere';

/** What some words mean on the table. */
export interface Named {
  /** The device; absent where none fits, or several and nothing tells them apart. */
  readonly device?: OnTable;
  /** All that fit equally. */
  readonly fit: readonly OnTable[];
  readonly by: Meant['by'];
  readonly said: string;
  /** It is not where it must be. */
  readonly misplaced: boolean;
  /** Words of the group that this device does not have. */
  readonly unknown: readonly Token[];
  /** Those that the words fit as well, and that are not where it must be. */
  readonly rivals?: readonly string[];
  /** What would be put on the table, where the words name a kind and no device fits. */
  readonly proposal?: ProposedDevice;
}

export interface Asked {
  readonly table: readonly OnTable[];
  /** Keys, those spoken of last first. */
  readonly spokenOf: readonly string[];
  readonly where: Where;
  /** What it can be: of pronouns, and of sizes alone. */
  readonly can?: (device: OnTable) => boolean;
  /** Kind for a size that has no word with it: `upsized to 10 French`. */
  readonly kind?: string;
  /** Family of what the line was about: that of `the ten French one`. */
  readonly alike?: OnTable['family'];
}

export const isIn = (device: OnTable, where: Where): boolean =>
  where === 'anywhere' || (where === 'inside' ? device.inside > 0 : device.inside < device.count);

/** Of those that words fit, the one that is where it must be; else all of them. */
export function choose(
  fit: readonly OnTable[],
  unknown: readonly Token[],
  { where, spokenOf }: Asked,
  said: string,
  pointed: boolean,
  sized: boolean,
  words: readonly string[] = [],
): Named | undefined {
  if (fit.length === 0) return undefined;
  const right = fit.filter(one => isIn(one, where));
  const there = right.length > 0 ? right : fit;
  // Of those that nothing tells apart the first lies ready; else those whose own words they are.
  const plainly =
    where === 'outside' && !words.some(word => /^micro/.test(word))
      ? there.filter(one => !one.words.has('micro'))
      : there;
  const usual = plainly.length > 0 && plainly.length < there.length && words.length > 0 ? plainly : there;
  const named = usual.filter(one => words.length > 0 && words.every(word => one.own.has(word)));
  const few = named.length > 0 ? named : usual;
  const left = where !== 'inside' && few.every(one => isAlike(one, few[0])) ? few.slice(0, 1) : few;
  const misplaced = right.length === 0;
  const last = spokenOf.find(key => left.some(one => one.key === key));
  const unused =
    where === 'outside'
      ? left.find(one => !one.used && guessable.has(one.family) && !left.every(other => isNear(one, other)))
      : undefined;
  const device =
    left.length === 1
      ? left[0]
      : (left.find(one => one.key === last && (where !== 'outside' || !one.used)) ??
        unused ??
        left.find(one => one.key === last));
  const rivals = fit.filter(one => !left.includes(one)).map(({ key }) => key);
  const sure = left.length === 1 || pointed;
  const by = left.length > 1 ? 'spoken of last' : fit.length > 1 ? 'state' : sized ? 'size' : 'words';
  return {
    ...(device && { device }),
    fit: sure && device ? [device] : left,
    by,
    said,
    misplaced,
    unknown,
    rivals,
  };
}

/** What is taken in the order of the table where nothing tells several apart. */
const guessable: ReadonlySet<string | undefined> = new Set(['guidewire', 'catheter']);

/** No more than their lengths tell them apart. */
const isNear = (one: OnTable, other: OnTable): boolean =>
  one.kind === other.kind &&
  one.description === other.description &&
  JSON.stringify(one.measures[0]) === JSON.stringify(other.measures[0]);

/** Nothing but its key tells it from another. */
export const isAlike = (one: OnTable, other: OnTable | undefined): boolean =>
  other !== undefined &&
  one.kind === other.kind &&
  one.description === other.description &&
  JSON.stringify(one.measures) === JSON.stringify(other.measures);

/** `it`: what was spoken of last and is where it must be. */
export function pronoun(asked: Asked, said: string): Named | undefined {
  const { table, where, can, spokenOf } = asked;
  const fit = table.filter(one => isIn(one, where) && (can?.(one) ?? true));
  const last = spokenOf.find(key => fit.some(one => one.key === key));
  const device = fit.find(one => one.key === last);
  return device && { device, fit: [device], by: 'spoken of last', said, misplaced: false, unknown: [] };
}

/** A bare `balloon` is a balloon before it is a tube that a balloon holds. */
export function preferFamily(fit: readonly OnTable[], words: readonly string[]): readonly OnTable[] {
  const family = familyNamed(words.at(-1) ?? '');
  const own = fit.filter(one => one.family === family);
  return family !== undefined && own.length > 0 ? own : fit;
}
