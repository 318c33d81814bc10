import { parse } from 'csv-parse/sync';
import { checkDigitProblem } from '../../conformance/terminology/check-digits.js';
import { delimiterOf, plainProblem } from '../../devices/catalogue/load.js';
import { type LocalCode, type Subject, subjects } from '../../fhir/options.js';
import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message, type Param, quoted } from '../../findings/message.js';

/** A site's own codes from its list, by the text that they stand for, and what is wrong with the list. */
export interface CodeList {
  readonly codes: Readonly<Record<string, readonly LocalCode[]>>;
  readonly findings: readonly Finding[];
}

const COLUMNS = ['text', 'system', 'code'] as const;
type Row = Readonly<Record<string, string | undefined>>;
const SNOMED = 'http://snomed.info/sct';
const LOINC = 'http://loinc.org';
/** Names that people write for the address of a code system. */
const ADDRESSES: readonly (readonly [RegExp, string])[] = [
  [/^(?:snomed|sct)/i, SNOMED],
  [/^(?:loinc|ln)$/i, LOINC],
];
/** How codes of the two systems look: SCTIDs, and LOINC's terms, parts, lists and answers. */
const FORMS: Readonly<Record<string, readonly [RegExp, Message]>> = {
  [SNOMED]: [/^[1-9]\d{5,17}$/, message('code.snomed')],
  [LOINC]: [/^(?:L[AGLP])?\d{1,7}-\d$/, message('code.loinc')],
};
const MOST = 50;

/**
 * Reads a site's list of codes: CSV in UTF-8, parted by comma, semicolon or tab, with a first line that names the columns
 * `text, system, code` and, where wanted, `what` and `display`. A line without a code is one that is still to be filled in.
 */
export function readCodes(bytes: Uint8Array): CodeList {
  const decoded = textOf(bytes);
  if (typeof decoded !== 'string') return { codes: {}, findings: [decoded] };
  const findings: Finding[] = [];
  // Spreadsheets may say in a line of its own what parts the columns.
  const declared = /^sep=(.)\r?\n/i.exec(decoded);
  const text = declared ? decoded.slice(declared[0].length) : decoded;
  const offset = declared ? 1 : 0;
  const read: unknown = parse(text, {
    delimiter: declared?.[1] ?? delimiterOf(text.split('\n', 1)[0] ?? ''),
    relax_column_count: true,
    skip_empty_lines: true,
    skip_records_with_error: true,
    info: true,
    on_skip: problem => {
      const line = Number(/at line (\d+)/.exec(problem?.message ?? '')?.[1] ?? 1) + offset;
      const params = { line: `${line}`, problem: plainProblem(problem?.code) };
      findings.push(finding('codes.unreadable', '', params, { line }));
    },
  });
  // With `info` each record comes with its line, which the types of the library do not say.
  const records = read as { record: string[]; info: { lines: number } }[];
  const names = (records.shift()?.record ?? []).map(name => name.trim().toLowerCase());
  for (const column of COLUMNS)
    if (!names.includes(column)) {
      const found = names.join(', ') || message('found.nothing');
      findings.push(finding('codes.column-missing', '', { column, found }, { line: 1 + offset }));
    }
  if (findings.some(({ code }) => code === 'codes.column-missing')) return { codes: {}, findings };
  const list = new Map<string, Kept[]>();
  for (const { record, info } of records) {
    const row: Row = Object.fromEntries(names.map((name, i) => [name, record[i]?.trim()]));
    addRow(row, info.lines + offset, list, findings);
  }
  const more = findings.length - MOST;
  const kept =
    more > 0 ? [...findings.slice(0, MOST), finding('codes.more', '', { count: `${more}` })] : findings;
  return {
    codes: Object.fromEntries([...list].map(([name, codes]) => [name, codes.map(({ code }) => code)])),
    findings: kept,
  };
}

interface Kept {
  readonly code: LocalCode;
  readonly line: number;
}

function addRow(row: Row, line: number, list: Map<string, Kept[]>, findings: Finding[]): void {
  const { system = '', code = '', display = '' } = row;
  // An apostrophe keeps a spreadsheet from reckoning a text; it is not of the text.
  const name = (row['text'] ?? '').replace(/^'(?=[=+\-@])/, '');
  if (code === '' && system === '') return;
  const problem = problemOf(row, name, line);
  if (problem) {
    findings.push(problem);
    return;
  }
  const what = row['what'] ? (row['what'].toLowerCase() as Subject) : undefined;
  const known = list.get(name.toLowerCase()) ?? [];
  const same = known.find(
    one => one.code.system === system && (one.code.what === what || !one.code.what || !what),
  );
  if (same?.code.code === code) return;
  if (same) {
    const params = { line: `${line}`, text: name, code, first: `${same.line}`, other: same.code.code };
    findings.push(finding('codes.twice', '', params, { line }));
    return;
  }
  const kept = { system, code, ...(display && { display }), ...(what && { what }) };
  list.set(name.toLowerCase(), [...known, { code: kept, line }]);
}

/** What is wrong with a row that is filled in; nothing where it can be used. */
function problemOf(row: Row, name: string, line: number): Finding | undefined {
  const { system = '', code = '', what = '' } = row;
  const at = { line };
  const bad = (column: string, found: string, expected: Param) =>
    finding(
      'codes.value',
      '',
      { line: `${line}`, column, found: found ? quoted(found) : message('found.empty'), expected },
      at,
    );
  if (name === '') return bad('text', name, message('code.words'));
  if (what && !subjects.some(one => one === what.toLowerCase()))
    return bad('what', what, subjects.join(', '));
  if (!/^(?:urn:|https?:\/\/)\S+$/.test(system)) {
    const meant = ADDRESSES.find(([words]) => words.test(system))?.[1];
    return bad('system', system, meant ?? message('code.system'));
  }
  if (/^[+-]?\d+(?:[.,]\d+)?E\+?\d+$/i.test(code))
    return finding('codes.rounded', '', { line: `${line}`, found: code }, at);
  const [form, said] = FORMS[system] ?? [/^\S+(?: \S+)*$/, message('code.any')];
  if (!form.test(code)) return bad('code', code, said);
  // What a spreadsheet leaves of 18 digits; shorter ones are noticed by their check digit.
  if (system === SNOMED && /^\d{15}000$/.test(code))
    return finding('codes.rounded', '', { line: `${line}`, found: code }, at);
  const problem = checkDigitProblem(system, code);
  return problem === undefined
    ? undefined
    : finding(
        'codes.check-digit',
        '',
        { line: `${line}`, code, system, problem: withLostDigit(problem, system, code) },
        at,
      );
}

/** What a code of SNOMED CT would be if its last digit had been lost in copying. */
function withLostDigit(problem: Message, system: string, code: string): Message {
  const whole = [...'0123456789'].map(digit => code + digit).find(one => !checkDigitProblem(system, one));
  return system === SNOMED && whole ? message('code.lostDigit', { problem, whole }) : problem;
}

function textOf(bytes: Uint8Array): string | Finding {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const utf16 = bytes[0] === 0xff || bytes[0] === 0xfe;
    const problem = message(utf16 ? 'code.utf16' : 'code.encoding');
    return finding('codes.not-text', '', { problem });
  }
}
