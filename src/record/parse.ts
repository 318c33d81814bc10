import { type Finding, finding, remedyOf } from '../findings/finding.js';
import { type Message, message } from '../findings/message.js';
import { beyondBounds } from './bounds.js';
import { treeOf } from './data.js';
import { emptyRemedy, findingsOf } from './issues.js';
import { fieldsOf, type KnownFields, keysAt, noFields } from './keys.js';
import { type Position, pathSegments, pathText } from './path.js';
import { prune } from './prune.js';
import { decodeUtf8, readText, type Tree } from './read.js';
import { checkReferences } from './references.js';
import { type CaseRecord, recordSchema } from './schema/record.js';
import { checkSense } from './sense.js';
import { checkSources } from './sources.js';
import { isCalendarDate, isTimeZone, type Moment, type TimeContext } from './time.js';
import { unmarked } from './tree.js';

/** What reading needs besides the text. */
export interface ParseOptions {
  /** IANA zone for a record that names none. */
  readonly timeZone?: string;
}

/** A case as read. `record` is absent when something in it could not be read; `findings` then say what. */
export interface ParsedCase {
  readonly record?: CaseRecord;
  /** What could be read beside the faults: for further checks only, never for a report or a submission. */
  readonly partial?: CaseRecord;
  /** Turns a path of `partial` into the path of the text: entries of a list shift when one was left out. */
  original(path: string): string;
  /** True when the text was no YAML/JSON or no case record at all. */
  readonly unreadable: boolean;
  readonly findings: readonly Finding[];
  /** Where a path stands in the text, or its nearest enclosing value. */
  locate(path: string): Position | undefined;
}

/**
 * Reads one case record from YAML or JSON text (or UTF-8 bytes). Never throws for what is in the text:
 * everything wrong comes back as findings with path, line and column.
 */
export function parseCase(input: string | Uint8Array, options: ParseOptions = {}): ParsedCase {
  const decoded = typeof input === 'string' ? { text: input } : decodeUtf8(input);
  if ('finding' in decoded) return unreadable([decoded.finding], () => undefined);
  const { tree, findings, locate } = readText(unmarked(decoded.text));
  return ofTree(tree, findings, locate, options, { line: 1, column: 1 });
}

/** The same for data that is already in memory (an API caller's object). Positions are unknown then. */
export function parseCaseData(data: unknown, options: ParseOptions = {}): ParsedCase {
  const { tree, findings } = treeOf(data);
  return ofTree(tree, findings, () => undefined, options, {});
}

function ofTree(
  tree: Tree | undefined,
  faults: readonly Finding[],
  locate: ParsedCase['locate'],
  options: ParseOptions,
  top: Partial<Position>,
): ParsedCase {
  if (faults.some(f => f.severity === 'fatal')) return unreadable(placed(faults, locate), locate);
  const beyond = tree === undefined ? [] : beyondBounds(tree);
  if (beyond.length > 0) return unreadable(placed(beyond, locate), locate);
  const what = notACase(tree);
  if (what !== undefined || tree === undefined)
    return unreadable(
      [finding('record.not-a-case', '', { what: what ?? message('found.nothing') }, top)],
      locate,
    );
  const { record, partial, findings, original } = parseTree(tree, options);
  const told = faults.map(withRemedy);
  // A field without a value is an error: the record is held back although the rest could be read.
  const whole = faults.length === 0 ? record : undefined;
  const rest = whole ? undefined : (partial ?? record);
  return {
    ...(whole && { record: whole }),
    ...(rest && { partial: rest }),
    original,
    unreadable: false,
    findings: placed([...told, ...findings.filter(f => !echoes(f, faults))], locate),
    locate,
  };
}

const known = (): KnownFields => fieldsOf(schema);

/** What to do about an empty field hangs on what may stand there. */
function withRemedy(fault: Finding): Finding {
  if (fault.code !== 'record.empty-value' || fault.remedy !== undefined) return fault;
  const remedy = emptyRemedy(fault.path, known());
  return remedy === undefined ? fault : { ...fault, remedy };
}

/** A field without a value is not missing as well. */
const echoes = (found: Finding, faults: readonly Finding[]) =>
  found.code === 'record.missing' && faults.some(fault => fault.path === found.path);

/** What the bare times of the record at hand are read against, and those that fell on another day. */
const frame: { -readonly [K in keyof TimeContext]: TimeContext[K] } = {};
let moved: { moment: Moment; days: number }[] = [];

// Made once, since making it costs more than reading a record; reading is synchronous, so one frame does.
const schema = recordSchema(frame, (moment, days) => moved.push({ moment, days }));

function readRecord(
  tree: Tree,
  { date, timeZone, started }: TimeContext,
): ReturnType<typeof schema.safeParse> {
  Object.assign(frame, { date, timeZone, started });
  moved = [];
  return schema.safeParse(tree);
}

const topFields: ReadonlySet<string> = new Set(keysAt(schema, []));

/** What the data is, when it is plainly no case record. */
function notACase(tree: Tree | undefined): Message | undefined {
  if (tree === undefined) return message('found.nothing');
  if (Array.isArray(tree)) return message('expected.list');
  if (typeof tree !== 'object') return message('found.bareText');
  if (!Object.hasOwn(tree, 'casetally')) {
    if (Object.hasOwn(tree, 'casetallySite')) return message('found.site');
    if (Object.hasOwn(tree, 'resourceType')) return message('found.resource');
  }
  return Object.keys(tree).some(name => topFields.has(name)) ? undefined : message('found.noFields');
}

function unreadable(findings: readonly Finding[], locate: ParsedCase['locate']): ParsedCase {
  return { unreadable: true, findings, locate, original: path => path };
}

/** Adds line and column to findings that have only a path. */
export function placed(
  findings: readonly Finding[],
  locate: (path: string) => Position | undefined,
): Finding[] {
  return findings.map(f => (f.line === undefined ? { ...f, ...locate(f.path) } : f));
}

/** `record` is whole; `partial` is what could be read beside the faults, good for checking and for nothing else. */
interface ParsedTree {
  readonly record?: CaseRecord;
  readonly partial?: CaseRecord;
  readonly findings: Finding[];
  original(path: string): string;
}

function parseTree(tree: Tree, options: ParseOptions): ParsedTree {
  const { context, findings } = contextOf(tree, options);
  const dated = context.date !== undefined && isCalendarDate(context.date);
  const first = readRecord(tree, context);
  if (first.success) {
    const found = [
      ...findings,
      ...checkReferences(first.data),
      ...checkSense(first.data),
      ...checkSources(tree),
      ...otherDayNotes(moved, context),
    ];
    // Every check counts days from that of the case: without a real one there is nothing to go on with.
    const rest = dated ? { partial: first.data } : {};
    return {
      ...(findings.length === 0 ? { record: first.data } : rest),
      findings: found,
      original: p => p,
    };
  }
  const all = findingsOf(first.error.issues, tree, known());
  const schemaFindings = sayCauseOnce([...findings, ...all]).filter(f => !findings.includes(f));
  const rest = dated ? readRest(zoned(context), tree) : undefined;
  if (!rest) return { findings: [...findings, ...schemaFindings], original: p => p };
  const original = (path: string) => pathText(rest.original(pathSegments(path)));
  const more = [...checkReferences(rest.record), ...checkSense(rest.record)].map(f => ({
    ...f,
    path: original(f.path),
  }));
  // What was taken out because it could not be read must not be called unrecorded.
  const faulty = new Set(all.map(f => f.path));
  const fresh = more.filter(
    f => !(f.code === 'record.not-recorded' && [...faulty].some(p => p.startsWith(f.path))),
  );
  return {
    partial: rest.record,
    findings: [...findings, ...schemaFindings, ...fresh, ...checkSources(tree)],
    original,
  };
}

/** One note for all times that were put on the day before, and one for those on the next day. */
function otherDayNotes(
  moved: readonly { moment: Moment; days: number }[],
  { started = '' }: TimeContext,
): Finding[] {
  const notes = [[-1, 'record.time-day-before'] as const, [1, 'record.time-next-day'] as const];
  return notes.flatMap(([days, code]): Finding[] => {
    const there = moved
      .filter(m => m.days === days)
      .map(m => m.moment)
      .sort((a, b) => a.epoch - b.epoch);
    const [first] = there;
    const last = there.at(-1);
    if (!first || !last) return [];
    const times =
      first.text === last.text
        ? message('reading.timeIs', { first: first.text })
        : message('reading.timesAre', { first: first.text, last: last.text });
    return [finding(code, 'case.started', { times, date: first.date, started })];
  });
}

/** A time cannot be read while zone or date of the case are missing or wrong: that is said once, not at every time. */
function sayCauseOnce(findings: readonly Finding[]): Finding[] {
  const blamed = (field: string) =>
    findings.some(f => f.path === `case.${field}` || remedyOf(f) === `Did you mean '${field}'?`);
  const kept = (code: Finding['code'], field: string) => (f: Finding) =>
    f.code !== code || (!blamed(field) && f === findings.find(other => other.code === code));
  return findings.filter(kept('record.no-time-zone', 'timeZone')).filter(kept('record.no-date', 'date'));
}

/** For reading on without a zone: UTC keeps times in order, which is all that the further checks need. */
function zoned(context: TimeContext): TimeContext {
  const known = context.timeZone !== undefined && isTimeZone(context.timeZone);
  return known ? context : { ...context, timeZone: 'UTC' };
}

/** Takes faults out, a few times over, until the rest can be read; so one run shows all mistakes, not the first layer. */
function readRest(
  context: TimeContext,
  tree: Tree,
): { record: CaseRecord; original(path: readonly PropertyKey[]): readonly PropertyKey[] } | undefined {
  let here = tree;
  let original = (path: readonly PropertyKey[]) => path;
  for (let round = 0; round < 7; round++) {
    const result = readRecord(here, context);
    if (result.success) return { record: result.data, original };
    const places = findingsOf(result.error.issues, here, noFields).map(fault => pathSegments(fault.path));
    if (places.some(path => path.length === 0)) return undefined;
    const timed = round === 0 ? withTimes(here, places) : undefined;
    if (timed) {
      here = timed;
      continue;
    }
    const pruned = prune(here, places);
    const before = original;
    original = path => before(pruned.original(path));
    here = pruned.tree;
  }
  return undefined;
}

/**
 * An event whose time cannot be read happened nonetheless, after the one that stands before it: without it the devices
 * that it moves would not be where they are. Undefined where no event is so.
 */
function withTimes(tree: Tree, places: readonly (readonly PropertyKey[])[]): Tree | undefined {
  const events = isGroup(tree) ? tree['events'] : undefined;
  const faulty = new Set(
    places.flatMap(([list, index, field]) => (list === 'events' && field === 'at' ? [index] : [])),
  );
  if (!isGroup(tree) || !Array.isArray(events) || faulty.size === 0) return undefined;
  const first = events.findIndex((event, index) => isGroup(event) && !faulty.has(index));
  let last: Tree | undefined = isGroup(events[first]) ? events[first]['at'] : undefined;
  const timed = events.map((event, index): Tree => {
    if (!isGroup(event)) return event;
    if (!faulty.has(index)) last = event['at'] ?? last;
    return faulty.has(index) && last !== undefined ? { ...event, at: last } : event;
  });
  return { ...tree, events: timed };
}

const isGroup = (tree: Tree | undefined): tree is Readonly<Record<string, Tree>> =>
  typeof tree === 'object' && !Array.isArray(tree);

/** Date, start and zone are needed before any bare time can be read, so they are looked up in the plain data. */
function contextOf(tree: Tree, options: ParseOptions): { context: TimeContext; findings: Finding[] } {
  const findings: Finding[] = [];
  const head = typeof tree === 'object' && !Array.isArray(tree) ? tree['case'] : undefined;
  const field = (name: string) => {
    const value = typeof head === 'object' && !Array.isArray(head) ? head[name] : undefined;
    return typeof value === 'string' ? value.trim() : undefined;
  };
  const date = field('date');
  const written = field('timeZone');
  if (written !== undefined && !isTimeZone(written))
    findings.push(finding('record.bad-time-zone', 'case.timeZone', { zone: written.slice(0, 60) }));
  if (date !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(date) && !isCalendarDate(date))
    findings.push(finding('record.bad-date', 'case.date', { found: date }));
  return { context: { date, timeZone: written ?? options.timeZone, started: field('started') }, findings };
}
