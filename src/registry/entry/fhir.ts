import type {
  CodeableConcept,
  Coding,
  Device,
  DeviceProperty,
  DeviceUseStatement,
  Extension,
  Patient,
  Period,
  Procedure,
  ProcedurePerformer,
} from 'fhir/r4.js';
import { ownCodeSystem, ownProfile } from '../../fhir/profiles.js';
import type { RegistryOptions } from '../options.js';
import { codingOf } from './codes.js';
import type { EntryElements } from './elements.js';

/** Under which systems an entry is written. */
export type EntrySystems = Pick<RegistryOptions, 'pseudonymSystem' | 'canonical'>;

const codeOf = (text: string) => text.replaceAll(' ', '-');

/** An entry as a FHIR resource that stands alone: its patient, device and case are contained. */
export function fhirEntry(elements: EntryElements, systems: EntrySystems): DeviceUseStatement {
  const { pseudonymSystem: system } = systems;
  const extension = extensionsOf(elements, systems);
  const timing = timingOf(elements);
  const site = siteOf(elements);
  return {
    resourceType: 'DeviceUseStatement',
    contained: [patientOf(elements, systems), deviceOf(elements, systems), procedureOf(elements, systems)],
    ...(extension.length > 0 && { extension }),
    identifier: [{ system, value: elements.entry }],
    status: elements.status,
    subject: { reference: '#patient', identifier: { system, value: elements.patient } },
    ...(timing && { timingPeriod: timing }),
    device: { reference: '#device' },
    derivedFrom: [{ reference: '#procedure' }],
    reasonCode: [{ coding: [own('device-action', elements.action, systems)] }],
    ...(site && { bodySite: site }),
  };
}

/** A code of ours: the words with dashes. */
function own(codeSystem: string, words: string, { canonical }: EntrySystems): Coding {
  return { system: ownCodeSystem(codeSystem, canonical), code: codeOf(words), display: words };
}

/** The extensions of an entry, in the order of their table; absent values leave no trace. */
function extensionsOf(elements: EntryElements, systems: EntrySystems): Extension[] {
  const { pseudonymSystem: system, canonical } = systems;
  const url = (id: string) => ownProfile(id, canonical);
  const { version, part, count, dwellDays, removalReason, nextReview, placedEntry } = elements;
  return [
    ...(part ? [{ url: url('part-of-device'), valueBoolean: true }] : []),
    ...(count === undefined ? [] : [{ url: url('number-alike'), valuePositiveInt: count }]),
    ...(version === undefined ? [] : [{ url: url('entry-version'), valuePositiveInt: version }]),
    ...(placedEntry === undefined
      ? []
      : [{ url: url('placed-entry'), valueIdentifier: { system, value: placedEntry } }]),
    ...(dwellDays === undefined ? [] : [{ url: url('dwell-days'), valueUnsignedInt: dwellDays }]),
    ...(removalReason === undefined
      ? []
      : [{ url: url('removal-reason'), valueCode: codeOf(removalReason) }]),
    ...(nextReview === undefined ? [] : [{ url: url('next-review'), valueDateTime: nextReview }]),
    ...sideOf(elements, url('site-side')),
  ];
}

const sideOf = ({ side }: EntryElements, url: string): Extension[] =>
  side === undefined ? [] : [{ url, valueCode: side }];

function timingOf({ placed, ended }: EntryElements): Period | undefined {
  if (placed === undefined && ended === undefined) return undefined;
  return { ...(placed !== undefined && { start: placed }), ...(ended !== undefined && { end: ended }) };
}

const siteOf = ({ site }: EntryElements): CodeableConcept | undefined =>
  site === undefined ? undefined : { coding: [codingOf(site)] };

/** The patient of an entry: sex and age group. */
function patientOf({ sex, ageGroup }: EntryElements, { canonical }: EntrySystems): Patient {
  return {
    resourceType: 'Patient',
    id: 'patient',
    ...(sex && { gender: sex }),
    ...(ageGroup !== undefined && {
      extension: [{ url: ownProfile('age-group', canonical), valueString: ageGroup }],
    }),
  };
}

/** The device of an entry, with what may be named of it. */
function deviceOf(elements: EntryElements, { canonical }: EntrySystems): Device {
  const { identifier, issuer, maker, lot, serial, model, reference, family, kind, expires, made } = elements;
  const property = [...sizeOf('Diameter', elements.diameter), ...sizeOf('Length', elements.length)];
  return {
    resourceType: 'Device',
    id: 'device',
    ...(identifier !== undefined && {
      udiCarrier: [{ deviceIdentifier: identifier, ...(issuer !== undefined && { issuer }) }],
    }),
    ...(maker !== undefined && { manufacturer: maker }),
    ...(made !== undefined && { manufactureDate: made }),
    ...(expires !== undefined && { expirationDate: expires }),
    ...(lot !== undefined && { lotNumber: lot }),
    ...(serial !== undefined && { serialNumber: serial }),
    ...(kind !== undefined && { deviceName: [{ name: kind, type: 'user-friendly-name' }] }),
    ...(model !== undefined && { modelNumber: model }),
    ...(reference !== undefined && { partNumber: reference }),
    type: { coding: [{ system: ownCodeSystem('device-family', canonical), code: family }] },
    ...(property.length > 0 && { property }),
  };
}

function sizeOf(text: string, size: string | undefined): DeviceProperty[] {
  const [value, unit = ''] = size?.split(' ') ?? [];
  if (value === undefined) return [];
  // UCUM has no needle gauge: then the words alone.
  const ucum = unit.startsWith('{') ? {} : { system: 'http://unitsofmeasure.org', code: unit };
  return [
    {
      type: { text },
      valueQuantity: [{ value: Number(value), unit: unit.replaceAll(/[{}]/g, ''), ...ucum }],
    },
  ];
}

/** The case of an entry: kind, date at the agreed precision, outcome and complications, all as codes. */
function procedureOf(elements: EntryElements, systems: EntrySystems): Procedure {
  const { pseudonymSystem: system, canonical } = systems;
  const { caseKind, complications, grades, outcome, indication = [] } = elements;
  const [first, ...further] = caseKind;
  const extension: Extension[] = [
    ...further.map(kind => ({
      url: ownProfile('also-done', canonical),
      valueCoding: own('case-kind', kind, systems),
    })),
    { url: ownProfile('complications', canonical), valueCode: codeOf(complications) },
  ];
  const performer = performersOf(elements, system);
  const scale = ownCodeSystem('adverse-event-scale', canonical);
  return {
    resourceType: 'Procedure',
    id: 'procedure',
    extension,
    identifier: [{ system, value: elements.case }],
    status: elements.caseStatus,
    ...(first !== undefined && { code: { coding: [own('case-kind', first, systems)] } }),
    subject: { reference: '#patient' },
    performedDateTime: elements.date,
    ...(performer.length > 0 && { performer }),
    ...(indication.length > 0 && { reasonCode: indication.map(code => ({ coding: [codingOf(code)] })) }),
    ...(outcome !== undefined && {
      outcome: { coding: [{ system: ownCodeSystem('outcome', canonical), code: codeOf(outcome) }] },
    }),
    ...(grades.length > 0 && {
      complication: grades.map(grade => ({ coding: [{ system: scale, code: codeOf(grade) }] })),
    }),
  };
}

function performersOf({ operator, unit }: EntryElements, system: string): ProcedurePerformer[] {
  return [
    ...(operator === undefined
      ? []
      : [{ actor: { type: 'Practitioner', identifier: { system, value: operator } } }]),
    ...(unit === undefined ? [] : [{ actor: { type: 'Organization', identifier: { system, value: unit } } }]),
  ];
}
