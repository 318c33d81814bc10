import type { z } from 'zod';
import { type Finding, finding, remedyOf } from '../findings/finding.js';
import type { KnownFields } from './keys.js';
import { pathSegments, pathText } from './path.js';
import { codePoint, type Tree } from './read.js';
import { type IssueParams, UNPRINTABLE } from './schema/fields.js';
import { suggest } from './suggest.js';

export { suggest } from './suggest.js';

/** Text to put into a message: bounded, one line, so that a hostile file cannot flood or restyle a terminal. */
export function shown(value: unknown): string {
  const text =
    typeof value === 'string'
      ? value
      : Array.isArray(value)
        ? 'a list'
        : value === null
          ? 'nothing'
          : typeof value === 'object'
            ? 'a group of fields'
            : String(value);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is replaced here
  const clean = text.replace(/[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u202a-\u202e\u2066-\u2069]/g, '·');
  return clean.length > 60 ? `${clean.slice(0, 57)}…` : clean;
}

const EXAMPLES: Record<string, string> = {
  string: 'text',
  object: 'a group of fields',
  record: 'a group of fields',
  array: 'a list',
  boolean: 'yes or no',
  number: 'a number',
};
const expectedName = (type: string) => EXAMPLES[type] ?? type;

/** A field that stands in the wrong place is told where it belongs; a mistyped one what it is called. */
function suggestKey(key: string, here: readonly string[], places: readonly string[]): string {
  const said = suggest(key, here);
  if (said.startsWith('Did you mean') || places.length === 0 || places.length > 3) return said;
  return `It belongs elsewhere: ${places.join(', or ')}.`;
}

/** Turns what the schema says into findings. `tree` is the data that was checked. */
export function findingsOf(issues: readonly z.core.$ZodIssue[], tree: Tree, known: KnownFields): Finding[] {
  return paired(issues.flatMap(issue => findingsOfIssue(issue, [], tree, known)));
}

/** Where one field is not known and one is missing in the same place, the one is most likely meant for the other. */
function paired(findings: Finding[]): Finding[] {
  const parentOf = (f: Finding) => pathText(pathSegments(f.path).slice(0, -1));
  const within = (code: Finding['code'], parent: string) =>
    findings.filter(f => f.code === code && parentOf(f) === parent);
  return findings.map(f => {
    if (f.code !== 'record.unknown-key' || !remedyOf(f).startsWith('Use one of')) return f;
    const parent = parentOf(f);
    const [missing, second] = within('record.missing', parent);
    if (!missing || second || within('record.unknown-key', parent).length > 1) return f;
    const name = String(pathSegments(missing.path).at(-1));
    return { ...f, remedy: `Did you mean '${name}', which is missing here?` };
  });
}

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
          key: shown(key),
          suggestion: suggestKey(key, known.keysAt(path), known.placesOf(key)),
        }),
      );
    case 'invalid_type':
      return value === undefined
        ? [missing(path, expectedName(issue.expected), known)]
        : [
            finding('record.wrong-type', where, {
              expected: expectedName(issue.expected),
              found: shown(value),
            }),
          ];
    case 'invalid_value': {
      const allowed = issue.values.map(String);
      if (value === undefined) return [missing(path, `one of ${allowed.join(', ')}`, known)];
      return [
        finding('record.not-one-of', where, {
          found: shown(value),
          allowed: allowed.join(', '),
          suggestion: suggest(shown(value), allowed),
        }),
      ];
    }
    case 'invalid_union':
      return ofUnion(issue, path, tree, known);
    case 'invalid_key':
      return [
        finding('record.bad-text', where, {
          found: shown(last),
          expected: 'a key: a letter, then letters, digits, _ or -',
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
        const expected = small ? `${issue.minimum} or more` : `${issue.maximum} or less`;
        return [finding('record.wrong-type', where, { expected, found: shown(value) })];
      }
      if (!small) break;
      return [
        finding('record.wrong-type', where, {
          expected: Array.isArray(value) ? "at least one entry, or 'none'" : 'text that is not blank',
          found: Array.isArray(value) ? 'an empty list' : `'${shown(value)}'`,
        }),
      ];
    }
    default:
      break;
  }
  return [finding('record.wrong-type', where, { expected: 'another value', found: shown(value) })];
}

/** A group is asked for with the fields that it cannot do without, so that the next check does not ask for those. */
function missing(path: readonly PropertyKey[], expected: string, known: KnownFields): Finding {
  const key = String(path.at(-1) ?? '');
  const needed = known.neededAt(path);
  const form = expected.startsWith('a list') ? `, a list of entries with ` : ' with ';
  const remedy =
    needed.length === 0 || !/^(?:a list|a group)/.test(expected)
      ? {}
      : { remedy: `Add '${key}'${form}${listed(needed)}${key === 'report' ? SIGNED : ''}.` };
  return finding('record.missing', pathText(path), { key, expected }, remedy);
}

/** A report that is not preliminary needs one field more. */
const SIGNED = ', and with signedAt unless status is preliminary';

const listed = (names: readonly string[]) =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** What to do about a field without a value: not every one may be left out, and few may be 'none'. */
export function emptyRemedy(path: string, known: KnownFields): string | undefined {
  const segments = pathSegments(path);
  if (typeof segments.at(-1) === 'number') return 'Take the line out.';
  const { optional, none } = known.asks(segments);
  if (!optional) return none ? "Write a value, or 'none'." : 'Write a value: the record needs this field.';
  return none ? undefined : 'Leave the line out when nothing was recorded.';
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
          ? i.values.map(v => `'${String(v)}'`)
          : i.code === 'invalid_type'
            ? [expectedName(i.expected)]
            : [],
    );
  const expected = [...new Set(words)].join(' or ');
  const where = pathText(path);
  if (value === undefined) return [missing(path, expected, known)];
  return [finding('record.wrong-type', where, { expected, found: shown(value) })];
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

function formatName(field: string): string {
  if (field === 'date') return 'a day, YYYY-MM-DD';
  if (field === 'system') return 'an absolute address: urn:… or https://…';
  if (field === 'study' || field === 'series') return 'a DICOM unique identifier';
  if (field === 'file')
    return 'the path of a .jpg, .jpeg or .png file in the folder of the case file or below it';
  return 'a key: a letter, then letters, digits, _ or -';
}
