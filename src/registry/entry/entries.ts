import type { DeviceUseStatement } from 'fhir/r4.js';
import type { Assessment } from '../../clinical/assessment.js';
import { isInside } from '../../devices/types.js';
import type { CodeOptions } from '../../fhir/options.js';
import { type Finding, finding, stops } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { PseudonymKey, RegistryOptions } from '../options.js';
import { normalNumber, type PatientNumber, patientNumber } from '../patient-number.js';
import { pseudonym } from '../pseudonym.js';
import { type DeviceAction, type RegisteredRow, registeredRows } from './action.js';
import { type AllowedDetails, allowedDetails, personalIn } from './allowed.js';
import { type CaseContext, caseElements, registeredKinds } from './case.js';
import { deviceElements, entryPseudonym } from './device.js';
import { type EarlierDevice, withEarlier } from './earlier.js';
import type { AskedElement, EntryElements } from './elements.js';
import { fhirEntry } from './fhir.js';

/** One line of a registry submission, and what it lacks. */
export interface RegistryEntry {
  readonly device: string;
  /** Present for a part that went another way than its device. */
  readonly part?: string;
  /** Date of the case at the agreed precision. */
  readonly date: string;
  readonly elements: EntryElements;
  readonly resource: DeviceUseStatement;
  readonly findings: readonly Finding[];
}

/** The entries of one case. */
export interface CaseEntries {
  readonly entries: readonly RegistryEntry[];
  /** What there is to say of the case as a whole; an error holds all of it back. */
  readonly findings: readonly Finding[];
  /** The number that the person goes by at the registry. */
  readonly number?: PatientNumber;
}

/** What entries may be made with beyond the record. */
export interface EntryExtras {
  /** Elements that a definition asks for beyond the narrowest entry. */
  readonly asked?: ReadonlySet<AskedElement>;
  /** Which codes may be sent. */
  readonly codes?: CodeOptions;
  /** Name or number of the unit, of which its pseudonym is made. */
  readonly unit?: string;
  /** What earlier cases told of devices that were carried in, by their key in the record. */
  readonly earlier?: ReadonlyMap<string, EarlierDevice>;
}

/**
 * Builds the entries of one case for a registry: one for each device, or part of one, that matters afterwards. Every
 * element is put in from a typed field on the allow-list below; nothing is copied from free text, notes, names or the
 * report. A withdrawn case gives the entries that it gave before, as entered in error.
 *
 * Allowed: pseudonyms, sex, age group, kinds of case, date at the agreed precision, device identifier, maker, model and
 * catalogue number where the catalogue or the settings have them, lot and serial (if agreed), number alike, action, end
 * state, technical outcome, what was said of complications and their grades; and, where a definition asks for them, the
 * rest of `EntryElements`.
 */
export function registryEntries(
  record: CaseRecord,
  assessment: Assessment,
  options: RegistryOptions,
  key: PseudonymKey,
  extras: EntryExtras = {},
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
  const context: CaseContext = {
    ...{ options, key, kinds, asked: extras.asked ?? new Set(), codes: extras.codes, unit: extras.unit },
    patient: pseudonym(key, 'patient', `${number.system}|${number.value}`),
  };
  // What all entries of a case have in common.
  const common: CaseCommon = {
    ...{ record, assessment, rows, context, isPersonal: personalIn(record) },
    elements: caseElements(record, context),
    earlier: extras.earlier ?? new Map(),
  };
  return {
    entries: rows.map(row => oneEntry(row, common)),
    findings,
    number: normalNumber(number),
  };
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
  readonly assessment: Assessment;
  readonly rows: readonly RegisteredRow[];
  readonly context: CaseContext;
  readonly isPersonal: (text: string) => boolean;
  readonly elements: ReturnType<typeof caseElements>;
  readonly earlier: ReadonlyMap<string, EarlierDevice>;
}

function oneEntry(told: RegisteredRow, common: CaseCommon): RegistryEntry {
  const { record, assessment, context } = common;
  const earlier = told.details.carried ? common.earlier.get(told.details.key) : undefined;
  const row: RegisteredRow = { ...told, details: withEarlier(told.details, earlier) };
  const { part } = row.entry;
  const { details: may, findings } = allowedDetails(common.isPersonal, row.details, context.options);
  const elements: EntryElements = {
    entry: pseudonymOf(told, common),
    status: statusOf(record, row),
    ...common.elements,
    ...deviceElements(row, may, { ...context, record, assessment, earlier }),
  };
  return {
    device: row.entry.device,
    ...(part !== undefined && { part }),
    date: elements.date,
    elements,
    resource: fhirEntry(elements, context.options),
    findings: [...missing(record, row, may, earlier), ...findings],
  };
}

/** A counted device may have several entries: all but the first name what happened too. */
function pseudonymOf(row: RegisteredRow, { record, rows, context }: CaseCommon): string {
  const { details, entry, action } = row;
  const alike = rows.filter(one => one.details === details && one.entry.part === entry.part);
  const name = { device: details.key, part: entry.part };
  return entryPseudonym(context.key, record.case.id, name, alike[0] === row ? undefined : action);
}

function statusOf(record: CaseRecord, { entry }: RegisteredRow): DeviceUseStatement['status'] {
  if (record.report.status === 'withdrawn') return 'entered-in-error';
  // What nobody accounts for may be inside.
  return isInside(entry.state) || entry.state === 'unaccounted' ? 'active' : 'completed';
}

/** The elements that an entry cannot do without, as far as an action needs them. */
function missing(
  record: CaseRecord,
  { details, action }: RegisteredRow,
  may: AllowedDetails,
  earlier: EarlierDevice | undefined,
): Finding[] {
  const path = `devices.${details.key}`;
  const params = { case: record.case.id, device: details.key };
  const found: Finding[] = [];
  // What is known again needs no identifier: its removal is told whether it has one or not.
  if (may.di === undefined && !earlier)
    found.push(finding('registry.identifier-missing', `${path}.label`, params));
  const traced: readonly DeviceAction[] = ['implanted'];
  if (traced.includes(action) && details.lot === undefined && details.serial === undefined)
    found.push(finding('registry.lot-missing', `${path}.lot`, params));
  const placed = details.entry.carried?.date ?? earlier?.placed;
  if (details.carried && placed === undefined)
    found.push(finding('registry.placed-missing', `${path}.carried.date`, params));
  return found;
}
