import type { z } from 'zod';
import { type Finding, finding } from '../findings/finding.js';
import { anyOf, type Message, message, type Param, quoted } from '../findings/message.js';
import { say } from '../findings/say.js';
import { codePoint } from './code-point.js';
import { grouped } from './grouped.js';
import type { KnownFields } from './keys.js';
import { pathSegments, pathText } from './path.js';
import type { Tree } from './read.js';
import { type IssueParams, UNPRINTABLE } from './schema/fields.js';
import { isNearest, suggest } from './suggest.js';

export { isNearest, suggest } from './suggest.js';

/** A value as a message shows it. */
function shown(value: unknown): Param {
  if (Array.isArray(value)) return message('expected.list');
  if (value === null) return message('found.nothing');
  return typeof value === 'object' ? message('expected.group') : shownText(String(value));
}

/** Text to put into a message: bounded, one line, so that a hostile file cannot flood or restyle a terminal. */
export function shownText(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is replaced here
  const clean = text.replace(/[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u202a-\u202e\u2066-\u2069]/g, '·');
  return clean.length > 60 ? `${clean.slice(0, 57)}…` : clean;
}

/** What may stand in a place, and what the first of it holds others in. */
interface Expected {
  readonly said: Param;
  readonly holds?: 'list' | 'group';
}

const EXPECTED: Readonly<Record<string, Expected>> = {
  string: { said: message('expected.text') },
  object: { said: message('expected.group'), holds: 'group' },
  record: { said: message('expected.group'), holds: 'group' },
  array: { said: message('expected.list'), holds: 'list' },
  boolean: { said: message('expected.yesNo') },
  number: { said: message('expected.number') },
};
const expectedOf = (type: string): Expected => EXPECTED[type] ?? { said: type };

/** A field that stands in the wrong place is told where it belongs; a mistyped one what it is called. */
function suggestKey(key: string, here: readonly string[], places: readonly string[]): Message {
  const said = suggest(key, here);
  if (isNearest(said) || places.length === 0 || places.length > 3) return said;
  return message('answer.elsewhere', { places: eitherOf(places) });
}

/** `a, or b`. */
const eitherOf = ([first = '', ...rest]: readonly string[]): Param =>
  rest.length === 0 ? first : message('answer.orElse', { one: first, other: eitherOf(rest) });

/** Turns what the schema says into findings. `tree` is the data that was checked. */
export function findingsOf(issues: readonly z.core.$ZodIssue[], tree: Tree, known: KnownFields): Finding[] {
  return paired(issues.flatMap(issue => findingsOfIssue(issue, [], tree, known)));
}

/** Where one field is not known and one is missing in the same place, the one is most likely meant for the other. */
function paired(findings: Finding[]): Finding[] {
  const placeOf = (code: Finding['code'], { path }: Finding) =>
    `${code} ${pathText(pathSegments(path).slice(0, -1))}`;
  const within = grouped(findings, f =>
    f.code === 'record.missing' || f.code === 'record.unknown-key' ? placeOf(f.code, f) : undefined,
  );
  return findings.map(f => {
    if (f.code !== 'record.unknown-key' || !isList(f.params['suggestion'])) return f;
    const [missing, second] = within.get(placeOf('record.missing', f)) ?? [];
    if (!missing || second || within.get(placeOf('record.unknown-key', f))?.length !== 1) return f;
    const name = String(pathSegments(missing.path).at(-1));
    return { ...f, remedy: message('answer.meantMissing', { name }) };
  });
}

const isList = (suggestion: Param | undefined) =>
  typeof suggestion === 'object' && 'key' in suggestion && suggestion.key === 'answer.useOneOf';

function findingsOfIssue(
  issue: z.core.$ZodIssue,
  base: readonly PropertyKey[],
  tree: Tree,
  known: KnownFields,
): Finding[] {
  const path = [...base, ...issue.path];
  const where = pathText(path);
  const value = at(tree, path);
  const last = String(path.at(-1) ?? 'the record');
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map(key =>
        finding('record.unknown-key', pathText([...path, key]), {
          key: shownText(key),
          suggestion: suggestKey(key, known.keysAt(path), known.placesOf(key)),
        }),
      );
    case 'invalid_type':
      return value === undefined
        ? [missing(path, expectedOf(issue.expected), known)]
        : [
            finding('record.wrong-type', where, {
              expected: expectedOf(issue.expected).said,
              found: shown(value),
            }),
          ];
    case 'invalid_value': {
      const allowed = issue.values.map(String);
      if (value === undefined) {
        const said = message('expected.oneOf', { allowed: allowed.join(', ') });
        return [missing(path, { said }, known)];
      }
      return [
        finding('record.not-one-of', where, {
          found: shown(value),
          allowed: allowed.join(', '),
          suggestion: suggest(say(shown(value)), allowed),
        }),
      ];
    }
    case 'invalid_union':
      return ofUnion(issue, path, tree, known);
    case 'invalid_key':
      return [
        finding('record.bad-text', where, {
          found: shownText(last),
          expected: message('expected.key'),
        }),
      ];
    case 'custom': {
      const params = issue.params as IssueParams | undefined;
      if (!params) break;
      if (params.finding === 'record.control-character') {
        const character = UNPRINTABLE.exec(String(value))?.[0] ?? '';
        return [finding(params.finding, where, { character: codePoint(character) })];
      }
      const remedy = params.remedy === undefined ? {} : { remedy: params.remedy };
      if (params.finding === 'record.bad-quantity')
        return [finding(params.finding, where, { why: params.why, example: params.example ?? '' }, remedy)];
      return [finding(params.finding, where, { why: params.why }, remedy)];
    }
    case 'invalid_format':
      return [finding('record.bad-text', where, { found: shown(value), expected: formatName(last) })];
    case 'too_small':
    case 'too_big': {
      const small = issue.code === 'too_small';
      if (issue.origin === 'number' || issue.origin === 'int') {
        const expected = small
          ? message('expected.orMore', { n: `${issue.minimum}` })
          : message('expected.orLess', { n: `${issue.maximum}` });
        return [finding('record.wrong-type', where, { expected, found: shown(value) })];
      }
      if (!small) break;
      return [
        finding('record.wrong-type', where, {
          expected: message(Array.isArray(value) ? 'expected.entry' : 'expected.notBlank'),
          found: Array.isArray(value) ? message('found.emptyList') : quoted(shownText(String(value))),
        }),
      ];
    }
    default:
      break;
  }
  return [finding('record.wrong-type', where, { expected: message('expected.other'), found: shown(value) })];
}

/** A group is asked for with the fields that it cannot do without, so that the next check does not ask for those. */
function missing(path: readonly PropertyKey[], { said, holds }: Expected, known: KnownFields): Finding {
  const key = String(path.at(-1) ?? '');
  const needed = known.neededAt(path);
  // A report that is not preliminary needs one field more.
  const answer = key === 'report' ? 'answer.addReport' : (`answer.add.${holds ?? 'group'}` as const);
  const remedy =
    needed.length === 0 || holds === undefined
      ? {}
      : { remedy: message(answer, { key, fields: { and: needed } }) };
  return finding('record.missing', pathText(path), { key, expected: said }, remedy);
}

/** What to do about a field without a value: not every one may be left out, and few may be 'none'. */
export function emptyRemedy(path: string, known: KnownFields): Message | undefined {
  const segments = pathSegments(path);
  if (typeof segments.at(-1) === 'number') return message('answer.takeLineOut');
  const { optional, none } = known.asks(segments);
  if (!optional) return message(none ? 'answer.valueOrNone' : 'answer.valueNeeded');
  return none ? undefined : message('answer.leaveLineOut');
}

/** Of a choice, speaks about the branch that the writer meant: the one that fails deepest, not at its root. */
function ofUnion(
  issue: z.core.$ZodIssueInvalidUnion,
  path: readonly PropertyKey[],
  tree: Tree,
  known: KnownFields,
): Finding[] {
  const value = at(tree, path);
  const meant = issue.errors.filter(branch =>
    branch.every(i => i.path.length > 0 || (i.code !== 'invalid_type' && i.code !== 'invalid_value')),
  );
  const branch = meant[0];
  if (branch) return branch.flatMap(i => findingsOfIssue(i, path, tree, known));
  const words = issue.errors
    .flat()
    .flatMap(i =>
      i.path.length > 0
        ? []
        : i.code === 'invalid_value'
          ? i.values.map((v): Expected => ({ said: quoted(String(v)) }))
          : i.code === 'invalid_type'
            ? [expectedOf(i.expected)]
            : [],
    );
  const different = [...new Map(words.map(word => [say(word.said), word])).values()];
  const expected = { ...different[0], said: anyOf(different.map(({ said }) => said)) };
  const where = pathText(path);
  if (value === undefined) return [missing(path, expected, known)];
  return [finding('record.wrong-type', where, { expected: expected.said, found: shown(value) })];
}

function at(tree: Tree | undefined, path: readonly PropertyKey[]): Tree | undefined {
  let here: Tree | undefined = tree;
  for (const segment of path) {
    if (Array.isArray(here) && typeof segment === 'number') here = here[segment];
    else if (typeof here === 'object' && here !== null && !Array.isArray(here) && typeof segment === 'string')
      here = Object.hasOwn(here, segment) ? here[segment] : undefined;
    else return undefined;
  }
  return here;
}

function formatName(field: string): Message {
  if (field === 'date') return message('expected.day');
  if (field === 'system') return message('expected.address');
  if (field === 'study' || field === 'series') return message('expected.uid');
  return message(field === 'file' ? 'expected.picture' : 'expected.key');
}
