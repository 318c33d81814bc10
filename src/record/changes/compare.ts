import { message, type Param } from '../../findings/message.js';
import { say } from '../../findings/say.js';
import { pathText } from '../path.js';
import { fieldOf, isGroup, isList, type Plain, type PlainGroup, plainRecord } from '../plain.js';
import type { CaseRecord } from '../schema/record.js';
import { pairUp } from './pair.js';
import { placeOf, valueText } from './place.js';
import { type WordChange, wordChanges } from './words.js';

/** One fact that two versions of a record tell differently. */
export interface ChangedFact {
  readonly kind: 'added' | 'removed' | 'changed';
  /** Path in the new record; in the old one for a fact that was removed. */
  readonly path: string;
  /** Path in the old record, where it is another one. */
  readonly was?: string;
  /** What it is: `Device drain: size`. */
  readonly what: Param;
  /** The value in the old record as one line of text; absent when it was added. */
  readonly before?: Param;
  /** The value in the new record; absent when it was removed. */
  readonly after?: Param;
  /** Words struck and added, where a text of several words was changed. */
  readonly words?: readonly WordChange[];
}

/**
 * What a new version of a record tells differently, in the order of the new record. Devices and targets are matched by
 * key; entries of lists by what makes them the same thing (time, verb and device of an event; device of what stays;
 * name and time of a drug), so that an entry put in between changes no other. Pure.
 */
export function compareRecords(before: CaseRecord, after: CaseRecord): ChangedFact[] {
  const [old, fresh] = [plainRecord(before), plainRecord(after)];
  return compare(old, fresh, [], [], { old, fresh });
}

/** A changed fact as results show it, in English. */
export interface ChangeRow extends Omit<ChangedFact, 'what' | 'before' | 'after'> {
  readonly what: string;
  readonly before?: string;
  readonly after?: string;
}

/** What was changed, in English. */
export function changeRow({ what, before, after, words, ...rest }: ChangedFact): ChangeRow {
  return {
    ...rest,
    what: say(what),
    ...(before !== undefined && { before: say(before) }),
    ...(after !== undefined && { after: say(after) }),
    ...(words && { words }),
  };
}

/** True for what only says that there is a new version: status, number, signature, reason. */
export function isAboutVersion({ path }: ChangedFact): boolean {
  return path === 'report' || path.startsWith('report.');
}

type Path = readonly PropertyKey[];

interface Roots {
  readonly old: PlainGroup;
  readonly fresh: PlainGroup;
}

function compare(
  before: Plain | undefined,
  after: Plain | undefined,
  path: Path,
  was: Path,
  roots: Roots,
): ChangedFact[] {
  if (before === undefined && after === undefined) return [];
  if (before === undefined || after === undefined) return [fact(before, after, path, was, roots)];
  if (isList(before) && isList(after)) return compareLists(before, after, path, was, roots);
  if (isGroup(before) && isGroup(after)) {
    const names = [...new Set([...Object.keys(after), ...Object.keys(before)])];
    return names.flatMap(name =>
      compare(fieldOf(before, name), fieldOf(after, name), [...path, name], [...was, name], roots),
    );
  }
  // Text on one side and a list or group on the other: 'none' became a list, or text got a code.
  return before === after ? [] : [fact(before, after, path, was, roots)];
}

function compareLists(
  before: readonly Plain[],
  after: readonly Plain[],
  path: Path,
  was: Path,
  roots: Roots,
): ChangedFact[] {
  const list = String(path.findLast(segment => typeof segment === 'string') ?? '');
  const { pairs, gone, come } = pairUp(list, before, after);
  const facts = [
    ...pairs.map(([i, j]) => ({
      at: j,
      facts: compare(before[i], after[j], [...path, j], [...was, i], roots),
    })),
    ...come.map(j => ({ at: j, facts: [fact(undefined, after[j], [...path, j], was, roots)] })),
  ]
    .sort((a, b) => a.at - b.at)
    .flatMap(entry => entry.facts);
  const removed = gone.map(i => fact(before[i], undefined, path, [...was, i], roots));
  return [...facts, ...removed, ...(list === 'events' ? reordered(pairs, after, path, was, roots) : [])];
}

/** Events of the same minute happen in the order of their lines: there, and only there, order is a fact. */
function reordered(
  pairs: readonly (readonly [number, number])[],
  after: readonly Plain[],
  path: Path,
  was: Path,
  roots: Roots,
): ChangedFact[] {
  return pairs.flatMap(([i, j], n) => {
    const next = pairs[n + 1];
    if (!next || next[0] > i || timeOf(after[j]) !== timeOf(after[next[1]])) return [];
    const to = [...path, j];
    const what = placeOf(to, roots.fresh);
    const other = placeOf([...path, next[1]], roots.fresh);
    return [
      {
        kind: 'changed',
        path: pathText(to),
        ...wasAt(to, [...was, i]),
        what: message('place.order', { what }),
        before: message('place.after', { what: other }),
        after: message('place.before', { what: other }),
      },
    ];
  });
}

const timeOf = (event: Plain | undefined) =>
  event !== undefined && isGroup(event) ? fieldOf(event, 'at') : undefined;

function fact(
  before: Plain | undefined,
  after: Plain | undefined,
  path: Path,
  was: Path,
  roots: Roots,
): ChangedFact {
  const what = after === undefined ? placeOf(was, roots.old) : placeOf(path, roots.fresh);
  if (after === undefined)
    return {
      kind: 'removed',
      path: pathText(was),
      what,
      ...(before !== undefined && { before: valueText(before) }),
    };
  const said = { path: pathText(path), what, after: valueText(after) };
  if (before === undefined) return { kind: 'added', ...said };
  const texts = typeof before === 'string' && typeof after === 'string';
  const old = valueText(before);
  return {
    kind: 'changed',
    ...said,
    ...wasAt(path, was),
    before: old,
    ...(texts && [old, said.after].some(text => /\S\s+\S+\s+\S/.test(text)) && isProse(old, said.after)
      ? { words: wordChanges(old, said.after) }
      : {}),
  };
}

/** Times and amounts are shown whole: a struck digit says nothing. */
const isProse = (...texts: readonly string[]) => !texts.some(text => /^\d{4}-\d{2}-\d{2}\b/.test(text));

function wasAt(path: Path, was: Path): { was?: string } {
  const [here, there] = [pathText(path), pathText(was)];
  return here === there ? {} : { was: there };
}
