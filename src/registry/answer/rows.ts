import { type Finding, finding } from '../../findings/finding.js';
import type { AnswersDefinition } from '../definition/schema.js';
import { type Answer, type AnswerLine, resultOf, saidText } from './answer.js';

type Fields = Exclude<AnswersDefinition, { kind: 'fhir bundle' }>;

/** A line of an answer by the names of its columns or fields, or why it is none. */
export interface AnswerRow {
  readonly line: number;
  readonly values?: Readonly<Record<string, string>>;
  readonly why?: string;
}

/** What the rows of an answer say. Lines that cannot be read are findings; the others count. */
export function answerOfRows(rows: Iterable<AnswerRow>, answers: Fields, complete: boolean): Answer {
  const lines: AnswerLine[] = [];
  const findings: Finding[] = [];
  for (const { line, values, why } of rows) {
    const read = values === undefined ? (why ?? '') : lineOf(values, line, answers);
    if (typeof read === 'string')
      findings.push(finding('registry.answer-unreadable', '', { line: `${line}`, why: read }));
    else lines.push(read);
  }
  return { lines, complete, findings };
}

/** A line, or in words why it cannot be read. */
function lineOf(
  values: Readonly<Record<string, string>>,
  line: number,
  answers: Fields,
): AnswerLine | string {
  const { fields } = answers;
  const of = (name: keyof Fields['fields']): string | undefined => {
    const field = fields[name];
    const value = field === undefined ? undefined : values[field]?.trim();
    return value === '' ? undefined : value;
  };
  const entry = of('entry');
  if (entry === undefined) return `${fields.entry} is empty.`;
  const said = of('result');
  if (said === undefined) return `${fields.result} is empty.`;
  const result = resultOf(said, answers);
  if (result === undefined)
    return `${fields.result} says '${saidText(said)}', which the definition of the registry does not know.`;
  const version = of('version');
  if (version !== undefined && !/^[1-9]\d{0,8}$/.test(version)) return `${fields.version} is no version.`;
  const [code, says, digest] = [saidText(of('code')), saidText(of('text')), of('digest')];
  return {
    ...{ line, entry, result },
    ...(version !== undefined && { version: Number(version) }),
    ...(code !== undefined && { code }),
    ...(says !== undefined && { says }),
    ...(digest !== undefined && { digest }),
  };
}
