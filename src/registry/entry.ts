import type { DeviceUseStatement, Extension, Patient, Period, Procedure } from 'fhir/r4.js';
import type { Assessment } from '../clinical/assessment.js';
import { isInside } from '../devices/types.js';
import { ownCodeSystem, ownProfile } from '../fhir/profiles.js';
import { type Finding, finding, stops } from '../findings/finding.js';
import type { CaseRecord } from '../record/schema/record.js';
import { type DeviceAction, type RegisteredRow, registeredRows } from './action.js';
import { type AllowedDetails, allowedDetails, personalIn } from './allowed.js';
import { cut, deviceOf, patientOf, procedureOf, registeredKinds } from './contained.js';
import type { PseudonymKey, RegistryOptions } from './options.js';
import { type PatientNumber, patientNumber } from './patient-number.js';
import { pseudonym } from './pseudonym.js';

/** One line of a registry submission, and what it lacks. */
export interface RegistryEntry {
  readonly device: string;
  /** Date of the case at the agreed precision. */
  readonly date: string;
  readonly resource: DeviceUseStatement;
  readonly findings: readonly Finding[];
}

/** The entries of one case. */
export interface CaseEntries {
  readonly entries: readonly RegistryEntry[];
  /** What there is to say of the case as a whole; an error holds all of it back. */
  readonly findings: readonly Finding[];
}

/**
 * Builds the entries of one case for a registry: one for each device, or part of one, that matters afterwards. Every
 * element is put in from a typed field on the allow-list below; nothing is copied from free text, notes, names or the
 * report. A withdrawn case gives the entries that it gave before, as entered in error.
 *
 * Allowed: pseudonyms, sex, age group, kinds of case, date at the agreed precision, device identifier, maker, model and
 * catalogue number where the catalogue or the settings have them, lot and serial (if agreed), number alike, action, end
 * state, technical outcome, what was said of complications and their grades.
 */
export function registryEntries(
  record: CaseRecord,
  assessment: Assessment,
  options: RegistryOptions,
  key: PseudonymKey,
): CaseEntries {
  const rows = [...assessment.devices.values()].flatMap(details =>
    registeredRows(
      details,
      assessment.tally.entries.filter(entry => entry.device === details.key),
    ),
  );
  if (rows.length === 0)
    return { entries: [], findings: [finding('registry.no-device', '', { case: record.case.id })] };
  const kinds = registeredKinds(record.case.kind);
  const number = patientNumber(record, options);
  const findings = [...kindFindings(record, kinds), ...numberFindings(number, options)];
  if (!number || findings.some(stops)) return { entries: [], findings };
  // What all entries of a case have in common.
  const common: CaseCommon = {
    ...{ record, rows, options, key, isPersonal: personalIn(record) },
    patient: patientOf(record, options),
    procedure: procedureOf(record, kinds, options, key),
    pseudonym: pseudonym(key, 'patient', `${number.system}|${number.value}`),
  };
  const entries = rows.map(row => oneEntry(row, common));
  return { entries, findings };
}

function kindFindings(record: CaseRecord, kinds: readonly string[]): Finding[] {
  if (kinds.length > 0) return [];
  const { kind, id } = record.case;
  return [finding('registry.kind-unlisted', 'case.kind', { case: id, kind })];
}

function numberFindings(number: PatientNumber | undefined, { patientSystem }: RegistryOptions): Finding[] {
  if (number) return [];
  return [
    patientSystem === undefined
      ? finding('registry.patient-numbers', 'patient.identifiers', {})
      : finding('registry.patient-number-missing', 'patient.identifiers', { system: patientSystem }),
  ];
}

interface CaseCommon {
  readonly record: CaseRecord;
  readonly rows: readonly RegisteredRow[];
  readonly options: RegistryOptions;
  readonly key: PseudonymKey;
  readonly isPersonal: (text: string) => boolean;
  readonly patient: Patient;
  readonly procedure: Procedure;
  /** Of the patient. */
  readonly pseudonym: string;
}

function oneEntry(row: RegisteredRow, common: CaseCommon): RegistryEntry {
  const { record, rows, options, key } = common;
  const { details, entry, action } = row;
  const { details: may, findings } = allowedDetails(common.isPersonal, details, options);
  const timing = timingOf(record, row, options);
  const extension = extensionsOf(row, options);
  const resource: DeviceUseStatement = {
    resourceType: 'DeviceUseStatement',
    contained: [common.patient, deviceOf(details, may, options, key), common.procedure],
    ...(extension.length > 0 && { extension }),
    identifier: [
      { system: options.pseudonymSystem, value: pseudonym(key, 'case', identityOf(record, row, rows)) },
    ],
    status: statusOf(record, row),
    subject: {
      reference: '#patient',
      identifier: {
        system: options.pseudonymSystem,
        value: common.pseudonym,
      },
    },
    ...(timing && { timingPeriod: timing }),
    device: { reference: '#device' },
    derivedFrom: [{ reference: '#procedure' }],
    reasonCode: [
      {
        coding: [
          {
            system: ownCodeSystem('device-action', options.canonical),
            code: action.replaceAll(' ', '-'),
            display: action,
          },
        ],
      },
    ],
  };
  return {
    device: entry.device,
    date: cut(record.case.date, options.dates),
    resource,
    findings: [...missing(record, row, may), ...findings],
  };
}

/** What tells an entry from every other of the site: case and device; the part; and the action where a counted device has several. */
function identityOf(record: CaseRecord, row: RegisteredRow, rows: readonly RegisteredRow[]): string {
  const { details, entry, action } = row;
  const alike = rows.filter(one => one.details === details && one.entry.part === entry.part);
  return [
    record.case.id,
    details.key,
    ...(entry.part === undefined ? [] : [entry.part]),
    ...(alike[0] === row ? [] : [`=${action}`]),
  ].join('\u0000');
}

function statusOf(record: CaseRecord, { entry }: RegisteredRow): DeviceUseStatement['status'] {
  if (record.report.status === 'withdrawn') return 'entered-in-error';
  // What nobody accounts for may be inside.
  return isInside(entry.state) || entry.state === 'unaccounted' ? 'active' : 'completed';
}

function extensionsOf({ details, entry }: RegisteredRow, options: RegistryOptions): Extension[] {
  return [
    ...(entry.part === undefined
      ? []
      : [{ url: ownProfile('part-of-device', options.canonical), valueBoolean: true }]),
    ...(details.count === 1 && entry.count === 1
      ? []
      : [{ url: ownProfile('number-alike', options.canonical), valuePositiveInt: entry.count }]),
  ];
}

/** From when to when it was in the patient; undefined for what never was. */
function timingOf(
  record: CaseRecord,
  { details, entry, action }: RegisteredRow,
  options: RegistryOptions,
): Period | undefined {
  if (action === 'opened not used' || (action === 'failed' && !entry.inserted && !details.carried))
    return undefined;
  const start = details.carried
    ? details.entry.carried?.date?.iso
    : (entry.inserted?.date ?? record.case.date);
  const ended = action === 'removed' || action === 'used' || action === 'failed';
  const end = ended ? (entry.removed?.date ?? record.case.date) : undefined;
  return {
    ...(start !== undefined && { start: cut(start, options.dates) }),
    ...(end !== undefined && { end: cut(end, options.dates) }),
  };
}

/** The elements that an entry cannot do without, as far as an action needs them. */
function missing(record: CaseRecord, { details, action }: RegisteredRow, may: AllowedDetails): Finding[] {
  const path = `devices.${details.key}`;
  const params = { case: record.case.id, device: details.key };
  const found: Finding[] = [];
  if (may.di === undefined) found.push(finding('registry.identifier-missing', `${path}.label`, params));
  const traced: readonly DeviceAction[] = ['implanted'];
  if (traced.includes(action) && details.lot === undefined && details.serial === undefined)
    found.push(finding('registry.lot-missing', `${path}.lot`, params));
  if (details.carried && details.entry.carried?.date === undefined)
    found.push(finding('registry.placed-missing', `${path}.carried.date`, params));
  return found;
}
