import { compareNames } from '../../delivery/patient/names.js';
import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { About } from '../contribution.js';
import { known } from './figures.js';
import type { DoseFile, DoseReport } from './report.js';

/** Whom and which case reports speak of, as their headers say. Of several the first counts: the others were held against it. */
export function aboutOf(counted: readonly DoseFile[]): About | undefined {
  const [first] = counted;
  if (!first) return undefined;
  const { patient, accession, study } = first.report;
  const about = known<About>({
    identifiers: patient.id === undefined ? undefined : [{ value: patient.id }],
    name: patient.name,
    birthDate: patient.birthDate,
    sex: patient.sex,
    accession,
    study,
  });
  return Object.keys(about).length > 0 ? about : undefined;
}

/**
 * Whether a report belongs to the case of a record. Another birth date, or another number with another name, is another
 * patient; another accession is another case unless the study is one of the record's.
 *
 * @returns findings, of which an error means that the report must not be taken.
 */
export function belongs({ file, report }: DoseFile, record: CaseRecord): Finding[] {
  const { patient: own } = record;
  const { patient } = report;
  const numbers = own.identifiers.map(({ value }) => value);
  const names = [patient.name, ...patient.otherNames].filter(name => name !== undefined);
  const same = {
    id: patient.id === undefined ? undefined : numbers.includes(patient.id),
    name:
      names.length === 0 || own.name === undefined
        ? undefined
        : names.some(name => compareNames(name, own.name ?? '') === 'same'),
    birthDate: sameDay(own.birthDate?.text, patient.birthDate),
  };
  const other = same.birthDate === false || (same.id === false && same.name !== true);
  const differs = (what: Message, path: string, found: string, typed: string) =>
    finding(other ? 'dose-report.other-patient' : 'dose-report.patient-differs', path, {
      ...{ file, what, found, recorded: typed },
    });
  const findings: Finding[] = [
    ...(same.birthDate === false
      ? [
          differs(
            message('label.birthDate'),
            'patient.birthDate',
            patient.birthDate ?? '',
            own.birthDate?.text ?? '',
          ),
        ]
      : []),
    ...(same.id === false
      ? [differs(message('dose.number'), 'patient.identifiers', patient.id ?? '', numbers.join(', '))]
      : []),
    ...(same.name === false
      ? [differs(message('label.name'), 'patient.name', names.join(' = '), own.name ?? '')]
      : []),
    ...sexDiffers(file, report, record),
    ...caseDiffers(file, report, record),
  ];
  if (Object.values(same).every(one => one === undefined))
    findings.push(finding('dose-report.patient-unsaid', '', { file }));
  return findings;
}

/** Days that are known to the day; a birth year alone is held against the year. */
function sameDay(typed: string | undefined, found: string | undefined): boolean | undefined {
  return typed === undefined || found === undefined ? undefined : found.startsWith(typed);
}

function sexDiffers(file: string, { patient }: DoseReport, record: CaseRecord): Finding[] {
  const { sex } = record.patient;
  if (patient.sex === undefined || sex === undefined || sex === 'unknown' || sex === patient.sex) return [];
  const what = message('label.sex');
  return [
    finding('dose-report.patient-differs', 'patient.sex', { file, what, found: patient.sex, recorded: sex }),
  ];
}

function caseDiffers(file: string, { accession, study }: DoseReport, record: CaseRecord): Finding[] {
  const studies = (record.images ?? []).map(image => image.study);
  if (study !== undefined && studies.includes(study)) return [];
  const own = record.case.accession;
  if (accession !== undefined && own !== undefined && accession !== own)
    return [finding('dose-report.other-case', 'case.accession', { file, found: accession, recorded: own })];
  return [];
}
