import { type Finding, finding } from '../../findings/finding.js';
import { pathOf } from '../definition/agreed.js';
import type { RegistryDefinition } from '../definition/schema.js';
import { deviceText, type Line, type Verdict } from '../store/submissions.js';
import type { Answer, AnswerLine } from './answer.js';

/** What there is to say of one case because of an answer. */
export interface CaseFinding {
  readonly case: string;
  readonly finding: Finding;
}

export interface Reconciled {
  readonly verdicts: readonly Verdict[];
  /** Of the answer as a whole, or of lines that are about nothing that was sent. */
  readonly findings: readonly Finding[];
  readonly cases: readonly CaseFinding[];
}

/** A batch that is answered. */
interface Answered {
  readonly id: string;
  readonly sha256: string;
  readonly lines: readonly Line[];
}

/**
 * Matches each line of an answer with the line that was sent. What is about other bytes changes nothing; what the whole
 * answer leaves out is missing, and what is left out by one that was cut stays open.
 */
export function reconcile(
  answer: Answer,
  { id, sha256, lines }: Answered,
  definition: Pick<RegistryDefinition, 'codes'>,
): Reconciled {
  const ofOthers = answer.lines.filter(
    ({ digest }) => digest !== undefined && digest.toLowerCase() !== sha256,
  );
  const said = answer.lines.filter(line => !ofOthers.includes(line));
  const findings: Finding[] = [...answer.findings];
  if (ofOthers.length > 0) findings.push(finding('registry.answer-other-digest', '', { batch: id }));
  const byEntry = new Map(lines.map(line => [line.elements.entry, line]));
  const verdicts = new Map<Line, Verdict>();
  for (const one of said) {
    const line = byEntry.get(one.entry);
    if (!line) findings.push(finding('registry.answer-unknown-entry', '', { line: `${one.line}` }));
    else if (one.version !== undefined && one.version !== line.version)
      findings.push(otherVersion(one, one.version, line.version));
    else verdicts.set(line, verdictOf(line, one, definition));
  }
  if (!answer.complete)
    findings.push(finding('registry.answer-incomplete', '', { batch: id, count: `${answer.lines.length}` }));
  // A line that cannot be read may be the one that seems to be missing.
  else if (ofOthers.length === 0 && answer.findings.length === 0)
    for (const line of lines)
      if (!verdicts.has(line))
        verdicts.set(line, { name: line.name, version: line.version, state: 'missing' });
  const cases = [...verdicts].flatMap(([line, verdict]) => findingOf(line, verdict, definition));
  return { verdicts: [...verdicts.values()], findings, cases };
}

function otherVersion({ line }: AnswerLine, version: number, sent: number): Finding {
  const params = { line: `${line}`, version: `${version}`, sent: `${sent}` };
  return finding('registry.answer-other-version', '', params);
}

function verdictOf(
  { name, version }: Line,
  { result, code, says }: AnswerLine,
  { codes }: Pick<RegistryDefinition, 'codes'>,
): Verdict {
  const meant = code === undefined ? says : (codes[code]?.says ?? says);
  return {
    ...{ name, version, state: result },
    ...(result === 'refused' && code !== undefined && { code }),
    ...(result === 'refused' && meant !== undefined && { says: meant }),
  };
}

function findingOf(
  { name }: Line,
  { state, code, says }: Verdict,
  { codes }: Pick<RegistryDefinition, 'codes'>,
): CaseFinding[] {
  const params = { case: name.case, device: deviceText(name) };
  if (state === 'missing')
    return [{ case: name.case, finding: finding('registry.not-answered', `devices.${name.device}`, params) }];
  if (state !== 'refused') return [];
  const known = code === undefined ? undefined : codes[code];
  const told = finding('registry.refused', pathOf(known?.element, name.device), {
    ...params,
    code: code ?? '-',
    says: says ?? '-',
    remedy: known?.remedy ?? 'Mend what the registry names.',
  });
  return [{ case: name.case, finding: told }];
}
