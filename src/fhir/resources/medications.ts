import type { MedicationAdministration, Procedure } from 'fhir/r4.js';
import { entriesOf } from '../../record/entries.js';
import { printQuantity } from '../../record/quantity.js';
import { routeCodes, sedationCodes } from '../codes/medication.js';
import { concept, knownBy } from '../concept.js';
import type { MappingContext } from '../context.js';
import { IPS } from '../profiles.js';
import { simpleQuantityOf } from '../quantity.js';
import { present, some } from '../tidy.js';
import { performed } from '../times.js';
import { personRef } from './people.js';
import { claims } from './procedure.js';
import { contrastGiven, contrastWords, doseWords, drugGiven } from './strength.js';

/** Sedation, drugs and contrast. That none was given is said by a note of the Procedure and by the section. */
export function addMedications(context: MappingContext): void {
  addSedation(context);
  addDrugs(context);
  addContrast(context);
}

function addSedation(context: MappingContext): void {
  const { sedation, case: about } = context.record;
  if (sedation === undefined || (sedation === 'none' && !context.options.negativeStatements)) return;
  const told = sedation === 'none' ? undefined : sedation;
  const start = told?.start?.iso;
  const end = told?.end?.iso;
  const by = personRef(context, told?.by);
  const resource: Procedure = {
    resourceType: 'Procedure',
    meta: claims(context, IPS.procedure),
    identifier: [context.identifier('procedure/sedation')],
    partOf: [context.ref('procedure')],
    status: told ? 'completed' : 'not-done',
    code: concept(
      context.options,
      told?.kind ?? 'Sedation or anaesthesia',
      told && knownBy(sedationCodes, told.kind),
    ),
    subject: context.ref('patient'),
    encounter: about.encounter && context.ref('encounter'),
    ...(start === undefined && end === undefined
      ? performed(context.times, about.date)
      : { performedPeriod: { start, end } }),
    performer: by && [{ actor: by }],
    note: some(
      present(
        ...(told?.changes ?? []).map(({ at, to, why }) =>
          present(`Changed to ${to} at ${at.iso}`, why).join('; '),
        ),
        told?.monitoring && `Monitoring: ${told.monitoring}`,
        told?.note,
      ).map(text => ({ text })),
    ),
  };
  context.add('procedure/sedation', resource, {
    from: 'sedation',
    sources: { performedPeriod: told?.start && 'sedation.start', code: told && 'sedation.kind' },
    summary: present(told ? told.kind : 'No sedation or anaesthesia', told?.monitoring),
    section: 'sedation',
  });
}

function addDrugs(context: MappingContext): void {
  const drugs = entriesOf(context.record.drugs);
  for (const [index, drug] of drugs.entries()) {
    const by = personRef(context, drug.by);
    add(context, `drug/${index + 1}`, `drugs[${index}]`, {
      ...drugGiven(context.options, drug),
      effectiveDateTime: drug.at.iso,
      performer: by && [{ actor: by }],
      reasonCode: drug.for && [{ text: drug.for }],
      note: some(
        present(
          drug.dose.comparator && `Dose: ${printQuantity(drug.dose)}`,
          drug.reaction === undefined
            ? undefined
            : drug.reaction
              ? 'A reaction was seen'
              : 'No reaction was seen',
        ).map(text => ({ text })),
      ),
      dosage: {
        text: present(doseWords(drug), drug.strength, drug.route).join(', '),
        route: concept(context.options, drug.route, knownBy(routeCodes, drug.route)),
        dose: simpleQuantityOf(drug.dose),
      },
    });
  }
}

function addContrast(context: MappingContext): void {
  const given = entriesOf(context.record.contrast);
  for (const [index, contrast] of given.entries())
    add(context, `contrast/${index + 1}`, `contrast[${index}]`, {
      ...contrastGiven(context.options, contrast),
      ...(contrast.at || !(context.times.start && context.times.end)
        ? { effectiveDateTime: contrast.at?.iso ?? context.times.start ?? context.record.case.date }
        : { effectivePeriod: { start: context.times.start, end: context.times.end } }),
      reasonCode: [{ text: 'contrast' }],
      note: some(
        present(
          contrast.volume.comparator && `Volume: ${printQuantity(contrast.volume)}`,
          contrast.reaction && `Reaction: ${contrast.reaction}`,
        ).map(text => ({ text })),
      ),
      dosage: {
        text: present(
          contrastWords(contrast),
          contrast.concentration && printQuantity(contrast.concentration),
          contrast.route,
        ).join(', '),
        route: concept(context.options, contrast.route, knownBy(routeCodes, contrast.route)),
        dose: simpleQuantityOf(contrast.volume),
      },
    });
}

type Facts = Omit<
  MedicationAdministration,
  'resourceType' | 'identifier' | 'partOf' | 'status' | 'subject' | 'context'
>;

function add(context: MappingContext, role: string, from: string, facts: Facts): void {
  const resource: MedicationAdministration = {
    resourceType: 'MedicationAdministration',
    identifier: [context.identifier(role)],
    partOf: [context.ref('procedure')],
    status: 'completed',
    subject: context.ref('patient'),
    context: context.record.case.encounter && context.ref('encounter'),
    ...facts,
  };
  const contrast = role.startsWith('contrast/');
  context.add(role, resource, {
    from,
    sources: {
      effectiveDateTime: `${from}.at`,
      dosage: `${from}.${contrast ? 'volume' : 'dose'}`,
      contained: facts.contained && `${from}.${contrast ? 'concentration' : 'strength'}`,
    },
    summary: present(
      present(
        facts.medicationCodeableConcept?.text ?? facts.medicationReference?.display,
        facts.dosage?.text,
      ).join(': '),
      facts.effectiveDateTime,
      ...(facts.note ?? []).map(({ text }) => text),
    ),
    section: 'drugs',
  });
}
