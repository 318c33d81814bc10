import { parse } from 'csv-parse/sync';
import type { OperationOutcome } from 'fhir/r4.js';
import { reason } from '../../findings/errors.js';
import { type Finding, finding } from '../../findings/finding.js';
import type { AnswersDefinition } from '../definition/schema.js';
import { type Answer, type AnswerLine, saidText } from './answer.js';
import { type AnswerRow, answerOfRows } from './rows.js';

/** An entry of a batch, in the order in which it was sent. */
export interface SentEntry {
  readonly entry: string;
  readonly version: number;
}

/**
 * Reads the answer of a registry. Whatever cannot be read is a finding, and the rest counts.
 * @param sent entries of the batch, for answers that go by order
 */
export function readAnswer(text: string, answers: AnswersDefinition, sent: readonly SentEntry[]): Answer {
  const answer = readAs(text, answers, sent);
  // What says nothing of any entry is no answer to all of them.
  return answer.lines.length === 0 ? { ...answer, complete: false } : answer;
}

function readAs(text: string, answers: AnswersDefinition, sent: readonly SentEntry[]): Answer {
  switch (answers.kind) {
    case 'csv':
      return readCsv(text, answers);
    case 'ndjson':
      return readNdjson(text, answers);
    case 'fhir bundle':
      return readBundle(text, sent);
  }
}

function readCsv(text: string, answers: Extract<AnswersDefinition, { kind: 'csv' }>): Answer {
  const { delimiter, end, fields } = answers;
  let cells: string[][];
  try {
    cells = parse(text, { bom: true, delimiter, relax_column_count: true, relax_quotes: true });
  } catch (error) {
    // An open quotation mark runs to the end: what stands before it counts.
    const whole = text.slice(0, text.lastIndexOf('\n') + 1);
    if (whole === text || whole === '')
      return { lines: [], complete: false, findings: [unreadable(1, reason(error))] };
    return { ...readCsv(whole, answers), complete: false };
  }
  const [header = [], ...rest] = cells;
  const lacks = [fields.entry, fields.result].find(name => !header.some(cell => cell.trim() === name));
  if (lacks !== undefined)
    return { lines: [], complete: false, findings: [unreadable(1, `it has no column ${lacks}.`)] };
  const last = rest.at(-1);
  const ends = end !== undefined && last?.[0]?.trim().startsWith(end);
  const rows = ends ? rest.slice(0, -1) : rest;
  const cut = end === undefined ? !/\n$/.test(text) && (last?.length ?? 0) < header.length : !ends;
  const given = rows.map((row, n): AnswerRow => {
    const line = n + 2;
    if (row.length !== header.length)
      return { line, why: `it has ${row.length} columns, where the first line has ${header.length}.` };
    return { line, values: Object.fromEntries(header.map((name, at) => [name.trim(), row[at] ?? ''])) };
  });
  // A last line that was cut in the middle is no line of its own.
  const known = cut && given.at(-1)?.values === undefined ? given.slice(0, -1) : given;
  return answerOfRows(known, answers, !cut);
}

function readNdjson(text: string, answers: Extract<AnswersDefinition, { kind: 'ndjson' }>): Answer {
  const { end } = answers;
  const rows: AnswerRow[] = [];
  let complete = end === undefined;
  const texts = text.split('\n');
  for (const [n, one] of texts.entries()) {
    if (one.trim() === '') continue;
    const line = n + 1;
    const values = objectOf(one);
    if (values === undefined) {
      // Without a line break behind it, it was cut.
      if (n === texts.length - 1) complete = false;
      else rows.push({ line, why: 'it is no JSON object.' });
    } else if (end !== undefined && Object.hasOwn(values, end)) complete = true;
    else rows.push({ line, values });
  }
  return answerOfRows(rows, answers, complete);
}

/** The plain values of a JSON object as text. */
function objectOf(text: string): Record<string, string> | undefined {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return undefined;
    return Object.fromEntries(
      Object.entries(value).flatMap(([name, one]: [string, unknown]) =>
        typeof one === 'string' || typeof one === 'number' || typeof one === 'boolean'
          ? [[name, String(one)]]
          : [],
      ),
    );
  } catch {
    return undefined;
  }
}

/** A batch-response has an entry for each entry of the batch, in its order (FHIR R4, http.html, batch/transaction response). */
function readBundle(text: string, sent: readonly SentEntry[]): Answer {
  const bundle = bundleIn(text);
  if (!bundle)
    return {
      lines: [],
      complete: false,
      findings: [unreadable(1, 'it is no Bundle with a batch-response.')],
    };
  const findings: Finding[] = [];
  const lines = bundle.flatMap((entry, n): AnswerLine[] => {
    const line = n + 1;
    const of = sent[n];
    const status = /^\d{3}/.exec(entry.response?.status ?? '')?.[0];
    if (!of || status === undefined) {
      findings.push(unreadable(line, of ? 'it has no status.' : 'the batch has no such entry.'));
      return [];
    }
    const about = { line, entry: of.entry, version: of.version };
    if (status.startsWith('2')) return [{ ...about, result: 'accepted' }];
    const [issue] = entry.response?.outcome?.issue ?? [];
    const says = saidText(issue?.diagnostics ?? issue?.details?.text);
    const code = saidText(issue?.details?.coding?.[0]?.code ?? issue?.code) ?? status;
    return [{ ...about, result: 'refused', code, ...(says !== undefined && { says }) }];
  });
  return { lines, complete: bundle.length >= sent.length, findings };
}

interface ResponseEntry {
  readonly response?: { readonly status?: string; readonly outcome?: OperationOutcome };
}

function bundleIn(text: string): readonly ResponseEntry[] | undefined {
  try {
    const value = JSON.parse(text) as { resourceType?: string; type?: string; entry?: unknown };
    const fits = value.resourceType === 'Bundle' && /^(?:batch|transaction)-response$/.test(value.type ?? '');
    return fits && Array.isArray(value.entry) ? (value.entry as ResponseEntry[]) : undefined;
  } catch {
    return undefined;
  }
}

const unreadable = (line: number, why: string): Finding =>
  finding('registry.answer-unreadable', '', { line: `${line}`, why });
