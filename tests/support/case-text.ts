import { messageOf } from '../../src/findings/finding.js';
import { type CaseRecord, type ParsedCase, parseCase } from './source.js';

/** The least that a case record holds, as YAML; `more` is added at top level and `patient`, `head` to those groups. */
export function caseText({
  more = '',
  patient = '',
  head = '',
  kind = 'nephrostomy',
}: {
  more?: string;
  patient?: string;
  head?: string;
  kind?: string;
} = {}): string {
  return `casetally: 1
case:
  id: T-1
  status: completed
  date: 2024-05-14
  timeZone: Europe/Lisbon
  started: "09:00"
  kind: ${kind}
${head}
patient:
  identifiers: [{ system: "https://ids.test.example/patients", value: P1 }]
${patient}
team: [{ key: op, role: operator, name: Dr Test }]
indication: { text: Test }
report: { status: preliminary, author: op }
${more}
`;
}

/** Parses a text that must be whole; a fault in the test's own text fails loudly. */
export function recordOf(text: string): CaseRecord {
  const parsed: ParsedCase = parseCase(text);
  if (!parsed.record) throw new Error(parsed.findings.map(f => `${f.path}: ${messageOf(f)}`).join('\n'));
  return parsed.record;
}
