import type { Patient } from 'fhir/r4.js';
import { notRecorded } from '../absent.js';
import type { MappingContext } from '../context.js';
import { some } from '../tidy.js';
import { humanName } from './human-name.js';

/** The patient as the record names them. */
export function addPatient(context: MappingContext): void {
  const { patient } = context.record;
  const identifier = patient.identifiers.map(({ system, value }) => ({ system, value }));
  const resource: Patient = {
    resourceType: 'Patient',
    identifier: some(identifier),
    name: [patient.name === undefined ? notRecorded() : humanName({ ...patient, name: patient.name })],
    gender: patient.sex,
    // FHIR has no time of birth here: a moment keeps its day.
    ...(patient.birthDate
      ? { birthDate: patient.birthDate.iso.slice(0, 10) }
      : { _birthDate: notRecorded() }),
  };
  context.add('patient', resource, {
    from: 'patient',
    sources: {
      identifier: 'patient.identifiers',
      name: patient.name && 'patient.name',
      gender: patient.sex && 'patient.sex',
      birthDate: patient.birthDate && 'patient.birthDate',
    },
    summary: [patient.name ?? 'Patient', ...identifier.map(({ value }) => value)],
    shared: 'patient',
  });
}
