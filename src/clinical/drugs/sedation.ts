import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { CaseRecord, DrugGiven } from '../../record/schema/record.js';
import { type Drug, drugsIn } from '../../trade/drugs/table.js';
import type { Given } from './given.js';

const hasFamily = (drug: DrugGiven, family: Drug['families'][number]) =>
  drugsIn(drug.drug.text).some(({ families }) => families.includes(family));

/** Sedates whatever it was said to be given for; ketamine and gas are also given for pain. */
const sedates = (drug: DrugGiven) =>
  drug.for === 'sedation' || drugsIn(drug.drug.text).some(({ name }) => name === 'propofol');

/** The kind of sedation against the drugs, the team and its own times. */
export function sedationFindings(record: CaseRecord, given: readonly Given[]): Finding[] {
  const { sedation } = record;
  if (sedation === undefined) return [];
  const kind = sedation === 'none' ? 'none' : sedation.kind;
  const said = message(`sedation.${kind}`);
  const sedatives = given.filter(({ drug }) => sedates(drug));
  const relaxant = given.find(({ drug }) => hasFamily(drug, 'muscle relaxant'));
  const light = kind === 'none' || kind === 'local anaesthesia only';
  const [first] = sedatives;
  const findings: Finding[] = [];
  if (light && first)
    findings.push(
      finding('clinical.sedation-differs', 'sedation', {
        what: message('sedation.drug', { kind: said, drug: first.drug.drug.text, time: first.drug.at.clock }),
      }),
    );
  if (kind !== 'general anaesthesia' && relaxant)
    findings.push(
      finding('clinical.sedation-differs', relaxant.path, {
        what: message('sedation.relaxant', { kind: said, drug: relaxant.drug.drug.text }),
      }),
    );
  if (sedation === 'none' || light) return findings;
  return [...findings, ...byWhom(record, sedation), ...outside(sedation, sedatives)];
}

type Sedation = Exclude<NonNullable<CaseRecord['sedation']>, 'none'>;

/** General anaesthesia is given by an anaesthetist. */
function byWhom({ team }: CaseRecord, { kind, by }: Sedation): Finding[] {
  if (kind !== 'general anaesthesia') return [];
  const who = team.find(({ key }) => key === by);
  // Who is only called 'other' may be an anaesthetic nurse or a dentist: nothing is known against it.
  const said = message(`sedation.${kind}`);
  const fits = who ? ['anaesthetist', 'other'].includes(who.role) : by !== undefined || hasAnaesthetist(team);
  if (fits) return [];
  const what = who
    ? message('sedation.by', { kind: said, name: who.name, role: message(`role.${who.role}`) })
    : message('sedation.nobody', { kind: said });
  return [finding('clinical.sedation-differs', who ? 'sedation.by' : 'sedation', { what })];
}

const hasAnaesthetist = (team: CaseRecord['team']) => team.some(({ role }) => role === 'anaesthetist');

/** A sedative after the end of sedation, or more than an hour before its start (premedication comes within it). */
function outside({ start, end }: Sedation, sedatives: readonly Given[]): Finding[] {
  return sedatives.flatMap(({ drug, path }) => {
    const ordered = start === undefined || end === undefined || end.epoch > start.epoch;
    const late = ordered && end !== undefined && drug.at.epoch > end.epoch;
    const early = start !== undefined && start.epoch - drug.at.epoch > 3_600_000 && drug.route !== 'oral';
    if (!late && !early) return [];
    const params = { drug: drug.drug.text, time: drug.at.clock };
    const what =
      late && end
        ? message('sedation.after', { ...params, end: end.clock })
        : message('sedation.before', { ...params, start: start?.clock ?? '' });
    return [finding('clinical.sedation-differs', `${path}.at`, { what })];
  });
}
