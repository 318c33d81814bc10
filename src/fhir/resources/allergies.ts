import type { AdverseEvent, AllergyIntolerance, Reference } from 'fhir/r4.js';
import type { FoundAllergy } from '../../clinical/drugs/reactions.js';
import { noKnownAllergy } from '../codes/clinical.js';
import { allergyCertainty, allergyCodes, eventSeverity } from '../codes/document.js';
import { concept, knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { present, some } from '../tidy.js';
import { personRef } from './people.js';

/** Allergies that this case showed, each with the event that showed it, then those that were known before. */
export function addAllergies(context: MappingContext): void {
  const found = context.assessment.allergies;
  for (const [index, one] of found.entries()) addFound(context, one, index + 1);
  const known = context.record.before?.allergies;
  if (known === undefined) return;
  if (known === 'none') {
    // What the case showed outranks what was not known before it.
    if (context.options.negativeStatements && found.length === 0)
      add(context, 'allergy/none', 'before.allergies', {
        code: knownConcept(noKnownAllergy, 'No known allergy'),
      });
    return;
  }
  for (const [index, item] of known.entries())
    add(context, `allergy/${index + 1}`, `before.allergies[${index}]`, {
      code: concept(context.options, item.to, undefined, 'allergy'),
      reaction:
        item.reaction === undefined && item.severity === undefined
          ? undefined
          : [
              {
                // A reaction whose signs were not written down still has a severity.
                manifestation: [{ text: item.reaction ?? 'Not recorded' }],
                severity: item.severity,
              },
            ],
    });
}

function add(context: MappingContext, role: string, from: string, rest: Partial<AllergyIntolerance>): void {
  const resource: AllergyIntolerance = {
    resourceType: 'AllergyIntolerance',
    identifier: [context.identifier(role)],
    clinicalStatus: knownConcept(allergyCodes.active),
    patient: context.ref('patient'),
    recordedDate: context.times.date,
    ...rest,
  };
  const [reaction] = rest.reaction ?? [];
  const signs = (reaction?.manifestation ?? []).flatMap(({ text }) => text ?? []);
  context.add(role, resource, {
    from,
    summary: present(
      resource.code?.text,
      ...signs.filter(text => text !== 'Not recorded'),
      reaction?.severity,
      ...(rest.note ?? []).map(({ text }) => text),
    ),
    section: 'allergies',
  });
}

function addFound(context: MappingContext, found: FoundAllergy, number: number): void {
  const { to, signs, severity, at, certainty, path } = found;
  const recorder = personRef(context, context.record.report.author);
  const code = to ? concept(context.options, to, undefined, 'allergy') : { text: 'Substance not known' };
  add(context, `allergy/found-${number}`, path, {
    code,
    verificationStatus: knownConcept(allergyCertainty[certainty], certainty),
    encounter: context.record.case.encounter && context.ref('encounter'),
    recorder,
    lastOccurrence: at,
    reaction: [
      {
        manifestation: signs.length > 0 ? signs.map(text => ({ text })) : [{ text: 'Not recorded' }],
        onset: at,
        severity,
      },
    ],
    note: [{ text: 'Found in this case' }],
  });
  const role = `adverse-event/${number}`;
  const what = `Reaction to ${to?.text ?? 'a substance that is not known'}`;
  const suspects = suspectsOf(context, found);
  const resource: AdverseEvent = {
    resourceType: 'AdverseEvent',
    // R4 gives this type no search by identifier: a tag finds it.
    meta: { tag: [context.tag(role)] },
    identifier: context.identifier(role),
    actuality: 'actual',
    event: { text: present(what, signs.join(', ')).join(': ') },
    subject: context.ref('patient'),
    encounter: context.record.case.encounter && context.ref('encounter'),
    date: at,
    recordedDate: context.times.date,
    resultingCondition: some(found.complications.map(index => context.ref(`complication/${index + 1}`))),
    severity: severity && knownConcept(eventSeverity[severity], severity),
    recorder,
    suspectEntity: some(suspects.map(instance => ({ instance }))),
  };
  context.add(role, resource, {
    from: path,
    summary: present(resource.event?.text, severity),
    section: 'complications',
  });
}

/** What was given; else the name of what is suspected and has no resource here. */
function suspectsOf(context: MappingContext, { given, to }: FoundAllergy): Reference[] {
  if (given.length > 0)
    return given.map(({ list, index }) =>
      context.ref(`${list === 'drugs' ? 'drug' : 'contrast'}/${index + 1}`, to?.text),
    );
  return to ? [{ display: to.text }] : [];
}
