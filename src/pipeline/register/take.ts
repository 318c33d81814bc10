import { type Finding, finding, stops } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import { caseFacts } from '../../register/case-facts.js';
import { type CaseFacts, caseText } from '../../register/facts.js';
import type { Register, Taken } from '../../register/store/register.js';
import type { Contradiction, Unlinked } from '../../register/use.js';
import type { Site } from '../../site/site.js';
import type { OpenedCase } from '../open-case.js';
import { caseSystemOf } from '../settings.js';

/** What came of a case that was to be taken into the register. */
export interface TakenIn {
  /** Name of the case; absent where the file is no whole case. */
  readonly case?: string;
  readonly fate: 'taken' | 'known' | 'held back' | 'unreadable';
  readonly findings: readonly Finding[];
  readonly taken?: Taken;
}

/** What the register keeps of an opened case; undefined when it is not whole. */
export function factsOfCase(
  { record, assessment }: Pick<OpenedCase, 'record' | 'assessment'>,
  site: Site,
  caseSystem = caseSystemOf(site),
): CaseFacts | undefined {
  if (!record || !assessment) return undefined;
  return caseFacts(record, assessment, { caseSystem, patientSystem: site.register?.patientSystem });
}

/**
 * Takes a case into the register, unless an error of its record holds it back.
 * @param caseSystem numbering system of its number, where the case is not of the site
 */
export async function takeCase(
  opened: OpenedCase,
  site: Site,
  register: Pick<Register, 'take'>,
  now: number,
  caseSystem?: string,
): Promise<TakenIn> {
  const own = caseSystemOf(site);
  const facts = factsOfCase(opened, site, caseSystem);
  if (!facts) return { fate: 'unreadable', findings: opened.findings };
  const name = caseText(facts.case, own);
  const errors = opened.findings.filter(stops);
  if (errors.length > 0) {
    const held = finding('register.held-back', '', { case: name, count: `${errors.length}` });
    return { case: name, fate: 'held back', findings: [...errors, held] };
  }
  const taken = await register.take({ facts, record: Buffer.from(opened.bytes).toString('utf8') }, now);
  const findings = takenFindings(name, facts, taken).map(f => ({ ...f, ...opened.parsed.locate(f.path) }));
  return { case: name, fate: taken.isNew ? 'taken' : 'known', findings, taken };
}

/** What there is to say of a version that was taken in. */
function takenFindings(name: string, facts: CaseFacts, taken: Taken): Finding[] {
  return [
    ...(facts.person ? [] : [finding('register.no-person', 'patient.identifiers', { case: name })]),
    ...(taken.versionTwice
      ? [finding('register.version-twice', 'report.version', { case: name, version: `${facts.version}` })]
      : []),
    ...taken.unlinked.map(unlinkedFinding),
    ...taken.gaps.map(({ case: of, device, use }) =>
      finding('register.gap', `devices.${device}.carried`, { case: of, device, use }),
    ),
    ...taken.sameSerial.map(({ di, serial, use, other }) =>
      finding('register.same-serial', 'devices', { di, serial, use, other }),
    ),
  ];
}

/** What a person has to decide about a device that was carried in. */
export function unlinkedFinding({ case: of, device, why, candidates, against }: Unlinked): Finding {
  const path = `devices.${device}.carried`;
  const params = { case: of, device, uses: { list: candidates } };
  if (why === 'several fit') return finding('register.several-fit', path, params);
  if (why === 'proposed') return finding('register.proposed', path, params);
  if (against.includes('use'))
    return finding('register.not-held', path, { case: of, device, use: candidates[0] ?? '' });
  const what = { list: against.flatMap(one => fieldOf(one) ?? []) };
  return finding('register.contradiction', path, { ...params, what });
}

function fieldOf(what: Contradiction): Message | undefined {
  switch (what) {
    case 'serial':
      return message('field.serial');
    case 'lot':
      return message('field.lot');
    case 'identifier':
      return message('field.udi');
    case 'side':
      return message('field.side');
    case 'dates':
      return message('field.date');
    case 'kind':
      return message('field.kind');
    case 'count':
      return message('field.count');
    case 'case':
      return message('field.case');
    case 'use':
      return undefined;
  }
}
