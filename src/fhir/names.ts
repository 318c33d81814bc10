import type { CodeableConcept, Coding } from 'fhir/r4.js';
import type { DeviceDetails } from '../devices/types.js';
import { entriesOf } from '../record/entries.js';
import type { Coded } from '../record/schema/fields.js';
import type { CaseRecord } from '../record/schema/record.js';
import { concept } from './concept.js';
import {
  caseConcept,
  complicationConcept,
  conditionConcept,
  deviceConcept,
  drugConcept,
  labConcept,
  roleConcept,
  siteCoded,
  specimenConcept,
  vitalConcept,
} from './concepts.js';
import type { MappingOptions, Subject } from './options.js';

/** A thing that a record names, with the codes that it is sent under; none where it is text alone. */
export interface Name {
  readonly what: Subject;
  readonly text: string;
  readonly coding: readonly Coding[];
}

/** Everything of a record that a code could stand for, by the way that the resources take. */
export function namesOf(
  record: CaseRecord,
  devices: Iterable<DeviceDetails>,
  options: MappingOptions,
): readonly Name[] {
  const { before, after } = record;
  const all = <T>(
    what: Subject,
    things: Iterable<T> | undefined,
    coded: (thing: T) => CodeableConcept,
  ): Name[] =>
    [...(things ?? [])].map(thing => {
      const { text = '', coding = [] } = coded(thing);
      return { what, text, coding };
    });
  const drug = (coded: Coded) => drugConcept(options, coded);
  return [
    ...all('case', [record.case], about => ({ ...caseConcept(options, about), text: about.kind })),
    ...all('device', devices, details => deviceConcept(options, details)),
    ...all('drug', entriesOf(record.drugs), given => drug(given.drug)),
    ...all('drug', entriesOf(record.contrast), given => drug(given.agent)),
    ...all('drug', entriesOf(before?.anticoagulants), taken => drug(taken.drug)),
    ...all('site', record.access, ({ site, side }) => siteCoded(options, site, side)),
    ...all('site', Object.values(record.targets ?? {}), ({ what, side }) => siteCoded(options, what, side)),
    ...all('measurement', [...(before?.labs ?? []), ...(after?.labs ?? [])], lab => labConcept(options, lab)),
    ...all('measurement', record.vitals, vital => vitalConcept(options, vital)),
    ...all('specimen', entriesOf(record.specimens), ({ what }) => specimenConcept(options, what)),
    ...all('complication', entriesOf(record.complications), ({ what }) => complicationConcept(options, what)),
    ...all('role', record.team, ({ role }) => roleConcept(options, role)),
    ...all('condition', [...(record.indication.conditions ?? []), ...(before?.conditions ?? [])], what =>
      conditionConcept(options, what),
    ),
    ...all('allergy', entriesOf(before?.allergies), ({ to }) => concept(options, to, undefined, 'allergy')),
  ];
}
