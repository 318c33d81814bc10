import type {
  CodeableConcept,
  Device,
  DeviceUdiCarrier,
  DeviceUseStatement,
  Patient,
  Period,
  Procedure,
} from 'fhir/r4.js';
import { Temporal } from 'temporal-polyfill';
import type { Assessment } from '../clinical/assessment.js';
import type { DeviceDetails, EndState, TallyEntry } from '../devices/types.js';
import { ownCodeSystem, ownProfile } from '../fhir/profiles.js';
import { type Finding, finding } from '../findings/finding.js';
import { entriesOf } from '../record/entries.js';
import type { CaseRecord } from '../record/schema/record.js';
import { caseRow } from '../trade/cases/table.js';
import type { PseudonymKey, RegistryOptions } from './options.js';
import { pseudonym } from './pseudonym.js';

/** What happened to a device, in the words of the register. */
export type DeviceAction =
  | 'implanted'
  | 'removed'
  | 'used'
  | 'opened not used'
  | 'failed'
  | 'left from before'
  | 'retained';

/** One line of a registry submission, and what it lacks. */
export interface RegistryEntry {
  readonly device: string;
  /** Date of the case at the agreed precision. */
  readonly date: string;
  readonly resource: DeviceUseStatement;
  readonly findings: readonly Finding[];
}

/** The grades of each published scale; anything else in that field is not sent. */
const scaleGrades: Readonly<Record<string, RegExp>> = {
  'CIRSE 2017': /^[1-6]$/,
  'CIRSE 2025': /^(?:1[ab]|2|3[ab]|[4-6])$/,
  'SIR 2017': /^[1-5]$/,
  'Clavien-Dindo': /^(?:I|II|IIIa|IIIb|IVa|IVb|V)d?$/,
};

/**
 * Builds the entries of one case for a registry: one for each device that matters afterwards. Every element is put in
 * from a typed field on the allow-list below; nothing is copied from free text, notes, names or the report.
 *
 * Allowed: pseudonyms, sex, age group, kind of case, date at the agreed precision, device identifier, maker, model,
 * catalogue number, lot, serial (if agreed), action, end state, side, technical outcome, complication grade.
 */
export function registryEntries(
  record: CaseRecord,
  assessment: Assessment,
  options: RegistryOptions,
  key: PseudonymKey,
): RegistryEntry[] {
  const main = assessment.tally.entries.filter(entry => entry.part === undefined);
  return main.flatMap(entry => {
    const details = assessment.devices.get(entry.device);
    if (!details || !matters(details, entry)) return [];
    return [oneEntry(record, details, entry, options, key)];
  });
}

/** Implants, drains, what was carried in, and whatever is inside at the end; wires and needles that came out are not registered. */
function matters(details: DeviceDetails, entry: TallyEntry): boolean {
  return (
    details.implant ||
    details.carried ||
    entry.state.startsWith('in situ') ||
    entry.state === 'retained unintended'
  );
}

function actionOf(details: DeviceDetails, state: EndState): DeviceAction {
  if (state === 'retained unintended' || state === 'unaccounted') return 'retained';
  if (state.startsWith('in situ')) return details.carried ? 'left from before' : 'implanted';
  // Searched for and not found: it was used, and nobody may call it retained.
  if (state === 'missing') return 'used';
  if (state.startsWith('discarded')) return details.entry.use === 'failed' ? 'failed' : 'opened not used';
  return details.carried ? 'removed' : details.entry.use === 'failed' ? 'failed' : 'used';
}

function oneEntry(
  record: CaseRecord,
  details: DeviceDetails,
  entry: TallyEntry,
  options: RegistryOptions,
  key: PseudonymKey,
): RegistryEntry {
  const action = actionOf(details, entry.state);
  const inside = entry.state.startsWith('in situ') || entry.state === 'retained unintended';
  const timing = timingOf(record, details, entry, inside, options);
  const resource: DeviceUseStatement = {
    resourceType: 'DeviceUseStatement',
    contained: [
      patientOf(record, options),
      deviceOf(details, options, key),
      procedureOf(record, options, key),
    ],
    identifier: [
      {
        system: options.pseudonymSystem,
        value: pseudonym(key, 'case', `${record.case.id}\u0000${details.key}`),
      },
    ],
    status: inside ? 'active' : 'completed',
    subject: { reference: '#patient', identifier: patientPseudonym(record, options, key) },
    ...(Object.keys(timing).length > 0 && { timingPeriod: timing }),
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
    device: details.key,
    date: cut(record.case.date, options.dates),
    resource,
    findings: missing(record, details, action),
  };
}

function patientPseudonym(record: CaseRecord, options: RegistryOptions, key: PseudonymKey) {
  const first = record.patient.identifiers[0];
  return {
    system: options.pseudonymSystem,
    value: pseudonym(key, 'patient', `${first?.system}|${first?.value}`),
  };
}

function patientOf(record: CaseRecord, options: RegistryOptions): Patient {
  const age = ageOn(record);
  const group = age === undefined || options.ages === 'leave out' ? undefined : ageGroup(age, options.ages);
  return {
    resourceType: 'Patient',
    id: 'patient',
    ...(record.patient.sex && { gender: record.patient.sex }),
    ...(group && {
      extension: [{ url: ownProfile('age-group', options.canonical), valueString: group }],
    }),
  };
}

/** Age in whole years on the day of the case; undefined unless the birth date is given to the day. */
function ageOn(record: CaseRecord): number | undefined {
  const birth = record.patient.birthDate;
  if (birth?.precision !== 'day') return undefined;
  return Temporal.PlainDate.from(birth.iso).until(Temporal.PlainDate.from(record.case.date), {
    largestUnit: 'years',
  }).years;
}

/** `45-49`, or the year itself where agreed; everyone over 89 is in one group, as small numbers there point at people. */
export function ageGroup(age: number, ages: 'five years' | 'years'): string {
  if (age > 89) return '90+';
  if (ages === 'years') return String(age);
  const low = Math.floor(age / 5) * 5;
  return `${low}-${low + 4}`;
}

/** Cuts an ISO date or dateTime to the agreed precision. */
function cut(iso: string, dates: RegistryOptions['dates']): string {
  return iso.slice(0, { year: 4, month: 7, day: 10 }[dates]);
}

function timingOf(
  record: CaseRecord,
  details: DeviceDetails,
  entry: TallyEntry,
  inside: boolean,
  options: RegistryOptions,
): Period {
  const start = details.carried
    ? details.entry.carried?.date?.iso
    : (entry.inserted?.date ?? record.case.date);
  const end = inside ? undefined : (entry.removed?.date ?? record.case.date);
  return { ...(start && { start: cut(start, options.dates) }), ...(end && { end: cut(end, options.dates) }) };
}

function deviceOf(details: DeviceDetails, options: RegistryOptions, key: PseudonymKey): Device {
  const udi: DeviceUdiCarrier | undefined = details.di
    ? { deviceIdentifier: details.di, ...(details.label?.issuerUri && { issuer: details.label.issuerUri }) }
    : undefined;
  const serial =
    details.serial === undefined || options.serials === 'leave out'
      ? undefined
      : options.serials === 'keep'
        ? details.serial
        : pseudonym(key, 'serial', `${details.di ?? ''}\u0000${details.serial}`);
  return {
    resourceType: 'Device',
    id: 'device',
    ...(udi && { udiCarrier: [udi] }),
    ...(details.maker && { manufacturer: details.maker }),
    ...(details.lot && options.lots === 'keep' && { lotNumber: details.lot }),
    ...(serial && { serialNumber: serial }),
    ...(details.model && { modelNumber: details.model }),
    ...(details.reference && { partNumber: details.reference }),
    type: {
      coding: [{ system: ownCodeSystem('device-family', options.canonical), code: details.family }],
    },
  };
}

function procedureOf(record: CaseRecord, options: RegistryOptions, key: PseudonymKey): Procedure {
  // Free text may hold anything: a kind without a row of its own is sent as 'other'.
  const kind = caseRow(record.case.kind)?.registry ?? 'other';
  const code: CodeableConcept = {
    coding: [
      {
        system: ownCodeSystem('case-kind', options.canonical),
        code: kind.replaceAll(' ', '-'),
        display: kind,
      },
    ],
  };
  const status = { completed: 'completed', 'stopped early': 'stopped', 'not done': 'not-done' } as const;
  const grades = entriesOf(record.complications).flatMap(c =>
    c.grade && scaleGrades[c.grade.scale]?.test(c.grade.grade)
      ? [
          {
            coding: [
              {
                system: ownCodeSystem('adverse-event-scale', options.canonical),
                code: `${c.grade.scale} ${c.grade.grade}`.replaceAll(' ', '-'),
              },
            ],
          },
        ]
      : [],
  );
  return {
    resourceType: 'Procedure',
    id: 'procedure',
    identifier: [{ system: options.pseudonymSystem, value: pseudonym(key, 'case', record.case.id) }],
    status: status[record.case.status],
    code,
    subject: { reference: '#patient' },
    performedDateTime: cut(record.case.date, options.dates),
    ...(record.outcome && {
      outcome: {
        coding: [
          {
            system: ownCodeSystem('outcome', options.canonical),
            code: record.outcome.overall.replaceAll(' ', '-'),
          },
        ],
      },
    }),
    ...(grades.length > 0 && { complication: grades }),
  };
}

/** The elements that an entry cannot do without. */
function missing(record: CaseRecord, details: DeviceDetails, action: DeviceAction): Finding[] {
  const path = `devices.${details.key}`;
  const found: Finding[] = [];
  const need = (present: boolean, what: string, at: string, remedy: string) => {
    if (!present)
      found.push(
        finding('registry.missing', at, { case: record.case.id, device: details.key, what, remedy }),
      );
  };
  need(details.di !== undefined, 'a device identifier', `${path}.label`, 'Scan the label, or give udi.');
  if (action === 'implanted')
    need(
      details.lot !== undefined || details.serial !== undefined,
      'a lot or serial number',
      `${path}.lot`,
      'Scan the label, or give lot or serial.',
    );
  if (details.carried)
    need(
      details.entry.carried?.date !== undefined,
      'the day it was placed',
      `${path}.carried.date`,
      'Give carried.date, as precise as it is known.',
    );
  return found;
}
