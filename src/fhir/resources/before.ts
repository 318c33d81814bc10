import type { Consent, MedicationStatement, ObservationComponent } from 'fhir/r4.js';
import { consentCodes } from '../codes/document.js';
import { knownConcept } from '../concept.js';
import { drugConcept } from '../concepts.js';
import type { MappingContext } from '../context.js';
import { present, some } from '../tidy.js';
import { addAllergies } from './allergies.js';
import { addObservation, component } from './observation.js';
import { personRef } from './people.js';

/** What was known and done before the case. */
export function addBefore(context: MappingContext): void {
  addAllergies(context);
  addAnticoagulants(context);
  addConsent(context);
  addChecks(context);
  addHistory(context);
}

function addAnticoagulants(context: MappingContext): void {
  const taken = context.record.before?.anticoagulants;
  if (taken === undefined) return;
  const add = (role: string, from: string, rest: MedicationStatementFacts, summary: string[]) =>
    context.add(
      role,
      {
        resourceType: 'MedicationStatement',
        identifier: [context.identifier(role)],
        subject: context.ref('patient'),
        dateAsserted: context.times.date,
        ...rest,
      },
      { from, summary, section: 'anticoagulants' },
    );
  if (taken === 'none') {
    if (!context.options.negativeStatements) return;
    add(
      'anticoagulant/none',
      'before.anticoagulants',
      { status: 'not-taken', medicationCodeableConcept: { text: 'Anticoagulant or antiplatelet drug' } },
      ['No anticoagulant taken'],
    );
  } else
    for (const [index, item] of taken.entries())
      add(
        `anticoagulant/${index + 1}`,
        `before.anticoagulants[${index}]`,
        {
          // The record says when the last dose was, not whether it is paused or stopped.
          status: 'unknown',
          medicationCodeableConcept: drugConcept(context.options, item.drug),
          effectivePeriod: item.lastDose && { end: item.lastDose.iso },
          dosage: item.dose === undefined ? undefined : [{ text: item.dose }],
          note: some(
            present(
              item.lastDose && `Last dose: ${item.lastDose.iso}`,
              item.plan && `Plan: ${item.plan}`,
            ).map(text => ({ text })),
          ),
        },
        present(item.drug.text, item.dose, item.lastDose && `last dose ${item.lastDose.iso}`, item.plan),
      );
}

type MedicationStatementFacts = Pick<MedicationStatement, 'status'> & Partial<MedicationStatement>;

/**
 * Consent given or refused is a Consent. Consent that could not be asked for is neither, and R4 has no status for it:
 * it is stated as an Observation.
 */
function addConsent(context: MappingContext): void {
  const consent = context.record.before?.consent;
  if (!consent) return;
  const takenBy = personRef(context, consent.takenBy);
  const lines = present(
    `Consent: ${consent.status}`,
    consent.by && `By: ${consent.by}`,
    takenBy?.display && `Taken by: ${takenBy.display}`,
    consent.at?.iso,
    consent.note,
  );
  if (consent.status === 'given' || consent.status === 'refused') {
    const resource: Consent = {
      resourceType: 'Consent',
      identifier: [context.identifier('consent')],
      status: consent.status === 'given' ? 'active' : 'rejected',
      scope: knownConcept(consentCodes.scope),
      category: [knownConcept(consentCodes.category)],
      patient: context.ref('patient'),
      dateTime: consent.at?.iso,
      performer: some([
        ...(consent.by === undefined ? [] : [{ display: consent.by }]),
        ...(takenBy ? [takenBy] : []),
      ]),
      policyRule: { text: 'Informed consent to the procedure' },
      provision: { type: consent.status === 'given' ? 'permit' : 'deny' },
    };
    context.add('consent', resource, {
      from: 'before.consent',
      sources: { status: 'before.consent.status', dateTime: 'before.consent.at' },
      summary: lines,
      section: 'consent',
    });
    return;
  }
  addObservation(context, {
    role: 'consent',
    category: 'procedure',
    code: { text: 'Consent to the procedure' },
    value: { valueString: consent.status },
    at: consent.at?.iso,
    more: takenBy ? { performer: [takenBy] } : {},
    notes: present(consent.by && `By: ${consent.by}`, consent.note),
    apart: true,
    section: 'consent',
    from: 'before.consent',
  });
}

/** Safety checklist and fasting: times under their names. */
function addChecks(context: MappingContext): void {
  const { checklist, fasting } = context.record.before ?? {};
  const timed = (name: string, iso: string | undefined): ObservationComponent[] =>
    iso === undefined ? [] : [component(name, { valueDateTime: iso })];
  if (checklist)
    addObservation(context, {
      role: 'observation/checklist',
      category: 'procedure',
      code: { text: 'Safety checklist' },
      components: [
        ...timed('Sign in', checklist.signIn?.iso),
        ...timed('Time out', checklist.timeOut?.iso),
        ...timed('Sign out', checklist.signOut?.iso),
      ],
      notes: present(checklist.note),
      section: 'consent',
      from: 'before.checklist',
    });
  if (fasting)
    addObservation(context, {
      role: 'observation/fasting',
      category: 'exam',
      code: { text: 'Fasting' },
      components: [
        ...timed('Last food', fasting.food?.iso),
        ...timed('Last clear fluids', fasting.clearFluids?.iso),
      ],
      notes: present(fasting.note),
      apart: true,
      section: 'before',
      from: 'before.fasting',
    });
}

/** Earlier imaging, earlier attempts and the condition on arrival, in the words of the record. */
function addHistory(context: MappingContext): void {
  const { before } = context.record;
  const say = (role: string, name: string, text: string | undefined, from: string) => {
    if (text === undefined) return;
    addObservation(context, {
      role,
      category: 'exam',
      code: { text: name },
      value: { valueString: text },
      apart: true,
      section: 'before',
      from,
    });
  };
  say('observation/earlier-imaging', 'Earlier imaging', before?.imaging, 'before.imaging');
  say('observation/arrival', 'Condition on arrival', before?.observations, 'before.observations');
  for (const [index, attempt] of (before?.earlierAttempts ?? []).entries())
    addObservation(context, {
      role: `observation/earlier-attempt-${index + 1}`,
      category: 'procedure',
      code: { text: 'Earlier attempt' },
      value: { valueString: present(attempt.what, attempt.result).join(': ') },
      apart: true,
      more: {
        // A day is not made up where none is written.
        effectiveDateTime: attempt.date?.iso,
        focus: attempt.case && [{ type: 'Procedure', identifier: attempt.case }],
      },
      section: 'before',
      from: `before.earlierAttempts[${index}]`,
    });
}
