import { type Finding, finding } from '../findings/finding.js';
import { findingsOf } from './issues.js';
import { keysAt } from './keys.js';
import { prune } from './prune.js';
import { decodeUtf8, type Position, pathSegments, pathText, readText, type Tree } from './read.js';
import { checkReferences } from './references.js';
import { type CaseRecord, recordSchema } from './schema/record.js';
import { checkSense } from './sense.js';
import { isCalendarDate, isTimeZone, type Moment, type TimeContext } from './time.js';

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
  const read = readText(decoded.text.replace(/^\uFEFF/, ''));
  const { tree, locate } = read;
  if (tree === undefined || read.findings.some(f => f.severity === 'fatal'))
    return unreadable(placed(orNotACase(read.findings, tree), locate), locate);
  if (typeof tree !== 'object' || Array.isArray(tree)) {
    const what = Array.isArray(tree) ? 'a list' : 'bare text';
    return unreadable([finding('record.not-a-case', '', { what }, { line: 1, column: 1 })], locate);
  }
  const { record, partial, findings, original } = parseTree(tree, options);
  // A field without a value is an error: the record is held back although the rest could be read.
  const whole = read.findings.length === 0 ? record : undefined;
  const rest = whole ? undefined : (partial ?? record);
  return {
    ...(whole && { record: whole }),
    ...(rest && { partial: rest }),
    original,
    unreadable: false,
    findings: placed([...read.findings, ...findings], locate),
    locate,
  };
}

/** The same for data that is already in memory (an API caller's object). Positions are unknown then. */
export function parseCaseData(data: unknown, options: ParseOptions = {}): ParsedCase {
  const locate = () => undefined;
  if (typeof data !== 'object' || data === null || Array.isArray(data))
    return unreadable(
      [finding('record.not-a-case', '', { what: Array.isArray(data) ? 'a list' : 'a bare value' })],
      locate,
    );
  return { ...parseTree(data as Tree, options), unreadable: false, locate };
}

function unreadable(findings: readonly Finding[], locate: ParsedCase['locate']): ParsedCase {
  return { unreadable: true, findings, locate, original: path => path };
}

function orNotACase(findings: readonly Finding[], tree: Tree | undefined): readonly Finding[] {
  if (tree !== undefined || findings.some(f => f.severity === 'fatal')) return findings;
  return [finding('record.not-a-case', '', { what: 'nothing' }, { line: 1, column: 1 })];
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
  const rolled: Moment[] = [];
  const schema = recordSchema(context, moment => rolled.push(moment));
  const first = schema.safeParse(tree);
  if (first.success) {
    const notes = rolled.map(m =>
      finding('record.time-next-day', 'case.started', { time: m.text, date: m.date }),
    );
    const found = [...findings, ...checkReferences(first.data), ...checkSense(first.data), ...notes];
    return {
      ...(findings.length === 0 ? { record: first.data } : { partial: first.data }),
      findings: found,
      original: p => p,
    };
  }
  // A time cannot be read while its zone is wrong: say the cause once, not at every time.
  const issues = first.error.issues.filter(issue => findings.length === 0 || !isZoneIssue(issue));
  const schemaFindings = findingsOf(issues, tree, path => keysAt(schema, path));
  const rest = readRest(
    schema,
    tree,
    findingsOf(first.error.issues, tree, () => []),
  );
  if (!rest) return { findings: [...findings, ...schemaFindings], original: p => p };
  const original = (path: string) => pathText(rest.original(pathSegments(path)));
  const more = [...checkReferences(rest.record), ...checkSense(rest.record)].map(f => ({
    ...f,
    path: original(f.path),
  }));
  // What was taken out because it could not be read must not be called unrecorded.
  const faulty = new Set(schemaFindings.map(f => f.path));
  const fresh = more.filter(
    f => !(f.code === 'record.not-recorded' && [...faulty].some(p => p.startsWith(f.path))),
  );
  return { partial: rest.record, findings: [...findings, ...schemaFindings, ...fresh], original };
}

/** Takes faults out, a few times over, until the rest can be read; so one run shows all mistakes, not the first layer. */
function readRest(
  schema: ReturnType<typeof recordSchema>,
  tree: Tree,
  faults: readonly Finding[],
): { record: CaseRecord; original(path: readonly PropertyKey[]): readonly PropertyKey[] } | undefined {
  let here = tree;
  let places = faults.map(fault => pathSegments(fault.path));
  let original = (path: readonly PropertyKey[]) => path;
  for (let round = 0; round < 6; round++) {
    if (places.some(path => path.length === 0)) return undefined;
    const pruned = prune(here, places);
    const before = original;
    original = path => before(pruned.original(path));
    here = pruned.tree;
    const result = schema.safeParse(here);
    if (result.success) return { record: result.data, original };
    places = findingsOf(result.error.issues, here, () => []).map(fault => pathSegments(fault.path));
  }
  return undefined;
}

const isZoneIssue = (issue: { code: string; params?: unknown }): boolean =>
  issue.code === 'custom' && JSON.stringify(issue.params ?? {}).includes('record.no-time-zone');

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
