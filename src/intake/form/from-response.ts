import type { QuestionnaireResponse } from 'fhir/r4.js';
import { stringify } from 'yaml';
import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import {
  type Json,
  type JsonObject,
  type JsonProblem,
  type ParsedJson,
  parseJson,
} from '../../json/parse.js';
import { writeFhirJson } from '../../json/write.js';
import { parseCase } from '../../record/parse.js';
import { pathSegments, pathText } from '../../record/path.js';
import { decodeUtf8 } from '../../record/read.js';
import type { Contribution } from '../contribution.js';
import { type FormOptions, formAddress } from './address.js';
import { authoredOf, contributionOf } from './given.js';
import { heldAgainst } from './held.js';
import { isObject } from './items.js';
import { formNodes } from './model.js';
import { type LeftOut, Notes, shownShort } from './notes.js';
import { Placing } from './place.js';

export interface FromResponseOptions extends FormOptions {
  /** IANA zone for a record that names none. */
  readonly timeZone?: string;
}

export interface FromResponse {
  /** The case record as YAML, made while faults stand as well; absent for what is no answer to this form. */
  readonly record?: string;
  /** About the response, and about the record that came of it: paths of both, lines of the response. */
  readonly findings: readonly Finding[];
  /** What is in the response and not in the record. It also stands at the end of the record, as a comment. */
  readonly leftOut: readonly LeftOut[];
  /** The same values for a record that there is already; absent where the response does not say when it was made. */
  readonly contribution?: Contribution;
}

/** Largest response, in bytes. That of a full case has some hundred kilobytes. */
export const MAX_RESPONSE = 16_777_216;
/** Most objects and lists in one: some thirty thousand answers. */
export const MAX_ELEMENTS = 150_000;
/** The most characters of what was left out that are repeated in the record. */
const MAX_COMMENT = 100_000;

/** What a response whose status is none of these is still being. */
const DONE: ReadonlySet<Json | undefined> = new Set(['completed', 'amended']);

/**
 * A QuestionnaireResponse to the form as a case record. Never throws for what is in it: what has no place in the record
 * is a finding, and is shown.
 */
export function fromResponse(
  input: string | Uint8Array | QuestionnaireResponse,
  options: FromResponseOptions = {},
): FromResponse {
  const text = textOf(input);
  if (typeof text !== 'string') return nothing([text]);
  const size = Buffer.byteLength(text);
  if (size > MAX_RESPONSE)
    return nothing([finding('form.too-big', '', { size: `${size}`, limit: `${MAX_RESPONSE}` })]);
  const parsed = parseJson(text);
  const notes = new Notes(parsed.source);
  const faults = faultsOf(parsed, notes);
  if (faults.length > 0) return nothing(faults);
  const response = parsed.value;
  if (!isObject(response) || response['resourceType'] !== 'QuestionnaireResponse') {
    const type = isObject(response) ? response['resourceType'] : undefined;
    const found = typeof type === 'string' ? shownShort(type) : message('found.nothing');
    return nothing([finding('form.not-a-response', '', { found })]);
  }
  if (refused(response, notes, options)) return nothing(notes.findings);
  sayOfHead(response, notes, options);
  return taken(response, notes, options);
}

function taken(response: JsonObject, notes: Notes, options: FromResponseOptions): FromResponse {
  const placing = new Placing(notes);
  const fields = placing.fieldsOf(response, formNodes, '', []);
  heldAgainst(response, fields, notes);
  const { leftOut } = notes;
  const record = `${stringify({ casetally: '1', ...fields }, { lineWidth: 0, compat: 'yaml-1.1' }).replace(/^casetally: .*/, 'casetally: 1')}${commentOf(leftOut)}`;
  const ofRecord = parseCase(record, options).findings.map(
    ({ line: _line, column: _column, ...found }): Finding => ({
      ...found,
      ...nearest(found.path, placing, notes),
    }),
  );
  const findings = [...notes.findings, ...ofRecord];
  const at = authoredOf(response);
  const given = at && contributionOf(response, fields, at, !DONE.has(response['status']));
  return { record, findings, leftOut, ...(given && { contribution: { ...given, findings } }) };
}

const nothing = (findings: readonly Finding[]): FromResponse => ({ findings, leftOut: [] });

function textOf(input: string | Uint8Array | QuestionnaireResponse): string | Finding {
  if (typeof input === 'string') return input;
  if (!(input instanceof Uint8Array)) return writeFhirJson(input, 0);
  const decoded = decodeUtf8(input);
  return 'text' in decoded ? decoded.text : decoded.finding;
}

/** Why the text cannot be read as JSON, or not as one thing. */
function faultsOf({ value, source, problems }: ParsedJson, notes: Notes): Finding[] {
  const elements = source.offsets.size;
  if (elements > MAX_ELEMENTS)
    return [finding('form.too-many', '', { count: `${elements}`, limit: `${MAX_ELEMENTS}` })];
  const told = problems.slice(0, 20).map(({ kind, detail, offset }: JsonProblem): Finding => {
    const at = notes.position(offset);
    if (kind === 'duplicate') return finding('form.twice-in-json', '', { name: shownShort(detail) }, at);
    if (kind === 'depth') return finding('form.too-deep', '', { limit: detail }, at);
    return finding('form.not-json', '', { problem: detail }, at);
  });
  return told.length > 0 || value !== undefined
    ? told
    : [finding('form.not-json', '', { problem: message('found.nothing') })];
}

/** Says why a response is not to be read at all. */
function refused(response: JsonObject, notes: Notes, options: FormOptions): boolean {
  const spot = (name: string) => ({ owner: response, name, path: name });
  for (const element of ['modifierExtension', 'implicitRules']) {
    const value = response[element];
    if (value === undefined) continue;
    notes.say('form.not-understood', spot(element), { element, value: notes.leave(spot(element), value) });
    return true;
  }
  if (response['status'] === 'entered-in-error') {
    notes.say('form.entered-in-error', spot('status'), {});
    return true;
  }
  const { questionnaire } = response;
  const expected = formAddress(options);
  if (questionnaire === undefined || String(questionnaire).split('|')[0] === expected) return false;
  if (String(questionnaire).split('|')[0] === formAddress({})) return false;
  const found = shownShort(String(questionnaire));
  notes.say('form.other-questionnaire', spot('questionnaire'), { found, expected });
  return true;
}

/** What is to be known of a response that is read. */
function sayOfHead(response: JsonObject, notes: Notes, options: FormOptions): void {
  const spot = (name: string) => ({ owner: response, name, path: name });
  const { questionnaire, status, authored } = response;
  if (questionnaire === undefined)
    notes.say('form.no-questionnaire', spot(''), { expected: formAddress(options) });
  const version = String(questionnaire ?? '').split('|')[1];
  if (version !== undefined && options.version !== undefined && version !== options.version)
    notes.say('form.other-version', spot('questionnaire'), {
      found: shownShort(version),
      expected: options.version,
    });
  if (!DONE.has(status))
    notes.say('form.not-completed', spot('status'), {
      status: typeof status === 'string' ? shownShort(status) : message('found.nothing'),
    });
  if (authoredOf(response) === undefined)
    notes.say('form.no-date', spot('authored'), {
      found: authored === undefined ? message('found.nothing') : shownShort(JSON.stringify(authored)),
    });
}

/** The place in the response that a path of the record came from, or that of what it is in. */
function nearest(path: string, { spots }: Placing, notes: Notes) {
  const segments = pathSegments(path);
  for (let length = segments.length; length > 0; length--) {
    const spot = spots.get(pathText(segments.slice(0, length)));
    if (spot) return notes.at(spot);
  }
  return {};
}

/** What was left out, as comments: it asserts nothing, and nobody has to look for it. */
function commentOf(leftOut: readonly LeftOut[]): string {
  if (leftOut.length === 0) return '';
  const lines = leftOut.map(({ place, content }) => `# ${place}: ${printable(content)}\n`);
  let length = 0;
  const kept = lines.filter(line => {
    length += line.length;
    return length <= MAX_COMMENT;
  });
  const more = lines.length - kept.length;
  return `\n# In the response and not in this record:\n${kept.join('')}${more > 0 ? `# and ${more} more\n` : ''}`;
}

/** Without characters that end a line or that YAML refuses. */
const printable = (text: string) =>
  text.replace(
    /[\u007f-\u009f\u2028\u2029\ufeff\ufffe\uffff]/g,
    char => `\\u${char.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
