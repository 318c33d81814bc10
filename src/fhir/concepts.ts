import type { CodeableConcept } from 'fhir/r4.js';
import type { DeviceDetails, DeviceFamily } from '../devices/types.js';
import type { Quantity } from '../record/quantity.js';
import type { Coded } from '../record/schema/fields.js';
import type { CaseRecord, VitalSign } from '../record/schema/record.js';
import { analyteNamed } from '../trade/analytes.js';
import { caseRow } from '../trade/cases/table.js';
import { drugsIn } from '../trade/drugs/table.js';
import { vitalNamed } from '../trade/vitals.js';
import { bloodPressureCodes, labCodes, specimenCodes, vitalSignCodes } from './codes/clinical.js';
import { complicationCodes, conditionNames } from './codes/conditions.js';
import { deviceFamilyCodes, deviceKindCodes } from './codes/devices.js';
import { functionCodes } from './codes/document.js';
import { drugCodes } from './codes/medication.js';
import { caseKindCodes } from './codes/procedures.js';
import { sidedSiteCodes, siteCodes } from './codes/sites.js';
import type { KnownCode } from './codes/types.js';
import { concept, firstToSend, knownBy } from './concept.js';
import { sided } from './events.js';
import type { CodeOptions } from './options.js';
import { some } from './tidy.js';

/** Rows that have other names for something else as well: what a name must say to bear the code of its row. */
const mustSay: Readonly<Record<string, RegExp>> = {
  'abscess drainage': /abscess/i,
  'chest drain insertion': /chest (?:drain|tube)|pleural (?:drain|catheter)/i,
};

/** What the case was, in the words of the procedure where it has some, with the codes of its kind beside. */
export function caseConcept(options: CodeOptions, { kind, procedure }: CaseRecord['case']): CodeableConcept {
  const row = caseRow(kind)?.name;
  const known = knownBy(mustSay, row)?.test(kind) === false ? undefined : knownBy(caseKindCodes, row);
  const ofKind = concept(options, kind, known, 'case');
  if (procedure === undefined) return ofKind;
  const own = concept(options, procedure, known, 'case');
  const more = (ofKind.coding ?? []).filter(
    ({ system }) => !own.coding?.some(coding => coding.system === system),
  );
  return { ...own, coding: some([...(own.coding ?? []), ...more]) };
}

/** The family of a device where its kind is known or somebody wrote it; that of any other is only assumed. */
export function familyTold({ row, entry, family }: DeviceDetails): DeviceFamily | undefined {
  return row === undefined && entry.family === undefined ? undefined : family;
}

/** What a device is: its kind, or its family where the kind has no code that may be sent. */
export function deviceConcept(options: CodeOptions, device: DeviceDetails): CodeableConcept {
  const known = firstToSend(
    options,
    knownBy(deviceKindCodes, device.row),
    knownBy(deviceFamilyCodes, familyTold(device)),
  );
  return concept(options, device.kind, known, 'device');
}

/** A drug or contrast medium by name, with the code of its row where the words name one alone. */
export function drugConcept(options: CodeOptions, drug: Coded): CodeableConcept {
  const [row, another] = drugsIn(drug.text);
  return concept(options, drug, another ? undefined : knownBy(drugCodes, row?.name), 'drug');
}

const SIDE_FIRST = /^(?:left|right|both|midline)\s+/;

/** A body site with the code of the site and its side, else of the site alone; none where its words name another side. */
export function siteCoded(
  options: CodeOptions,
  site: Coded,
  side?: Parameters<typeof sided>[1],
): CodeableConcept {
  const words = sided(site.text.trim(), side).toLowerCase();
  const known = knownBy(sidedSiteCodes, words) ?? knownBy(siteCodes, words.replace(SIDE_FIRST, ''));
  return concept(options, site, known, 'site');
}

/** What a blood gas machine measures is not serum or plasma. Common practice, no source. */
const WHOLE_BLOOD = /\b(?:blood|arterial|capillary|gas)\b/i;

/** A laboratory test. LOINC goes by name and unit: mass and molar results have codes of their own. */
export function labConcept(
  options: CodeOptions,
  { what, value }: { readonly what: Coded; readonly value: Quantity },
): CodeableConcept {
  const code = byUnit(knownBy(labCodes, analyteNamed(what.text)?.name), value.code);
  const elsewhere = code?.display.endsWith('in Serum or Plasma') && WHOLE_BLOOD.test(what.text);
  return concept(options, what, elsewhere ? undefined : code, 'measurement');
}

/** A vital sign. A code stands for its profile, so that it is given only with a unit that the profile accepts. */
export function vitalConcept(options: CodeOptions, { what, value }: VitalSign): CodeableConcept {
  const name = vitalNamed(what.text);
  const code =
    'systolic' in value
      ? name === 'blood pressure' && value.systolic.code === 'mm[Hg]'
        ? bloodPressureCodes.panel
        : undefined
      : value.comparator === undefined
        ? byUnit(knownBy(vitalSignCodes, name), value.code)
        : undefined;
  return concept(options, what, code, 'measurement');
}

const byUnit = (row: Readonly<Record<string, KnownCode>> | undefined, unit: string): KnownCode | undefined =>
  row && Object.hasOwn(row, unit) ? row[unit] : undefined;

export function specimenConcept(options: CodeOptions, what: Coded): CodeableConcept {
  return concept(options, what, knownBy(specimenCodes, what.text), 'specimen');
}

export function complicationConcept(options: CodeOptions, what: Coded): CodeableConcept {
  return concept(options, what, knownBy(complicationCodes, what.text), 'complication');
}

/** A condition that was there before, or that the case is done for. */
export function conditionConcept(options: CodeOptions, what: Coded): CodeableConcept {
  const known = knownBy(conditionNames, what.text) ?? knownBy(complicationCodes, what.text);
  return concept(options, what, known, 'condition');
}

/** What a member of the team did. */
export function roleConcept(options: CodeOptions, role: string): CodeableConcept {
  return concept(options, role, knownBy(functionCodes, role), 'role');
}
