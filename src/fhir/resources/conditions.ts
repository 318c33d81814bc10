import type { Condition } from 'fhir/r4.js';
import { entriesOf } from '../../record/entries.js';
import type { Complication } from '../../record/schema/record.js';
import { severityCodes } from '../codes/clinical.js';
import { conditionCodes } from '../codes/document.js';
import { knownConcept } from '../concept.js';
import { complicationConcept, conditionConcept } from '../concepts.js';
import type { MappingContext } from '../context.js';
import { deviceName, targetName } from '../events.js';
import { present, some } from '../tidy.js';
import { siteConcept } from './body-sites.js';

/** Conditions of the indication, others that matter, and complications. */
export function addConditions(context: MappingContext): void {
  const { record } = context;
  for (const [index, coded] of (record.indication.conditions ?? []).entries())
    addCondition(context, `condition/${index + 1}`, `indication.conditions[${index}]`, 'indication', {
      code: conditionConcept(context.options, coded),
      clinicalStatus: knownConcept(conditionCodes.active),
      category: [knownConcept(conditionCodes.encounter)],
    });
  for (const [index, coded] of (record.before?.conditions ?? []).entries())
    addCondition(context, `condition/other-${index + 1}`, `before.conditions[${index}]`, 'before', {
      code: conditionConcept(context.options, coded),
      // A bare text may be about the past ('infarction in 2019'), so that no status is claimed for it. Without a
      // category R4 asks for none (con-3); an end is for what is over (con-4).
      clinicalStatus: coded.status && knownConcept(statusCodes[coded.status]),
      onsetDateTime: coded.since?.iso,
      abatementDateTime: isOver(coded.status) ? coded.until?.iso : undefined,
      note: some(
        present(
          coded.status === 'history' && 'In the past',
          !isOver(coded.status) && coded.until && `Until: ${coded.until.iso}`,
        ).map(text => ({ text })),
      ),
    });
  const complications = entriesOf(record.complications);
  for (const [index, item] of complications.entries())
    addCondition(
      context,
      `complication/${index + 1}`,
      `complications[${index}]`,
      'complications',
      complication(context, item),
    );
}

const statusCodes = {
  active: conditionCodes.active,
  resolved: conditionCodes.resolved,
  history: conditionCodes.inactive,
} as const;

const isOver = (status: keyof typeof statusCodes | undefined) =>
  status === 'resolved' || status === 'history';

function addCondition(
  context: MappingContext,
  role: string,
  from: string,
  section: 'indication' | 'before' | 'complications',
  rest: Partial<Condition>,
): void {
  const resource: Condition = {
    resourceType: 'Condition',
    identifier: [context.identifier(role)],
    subject: context.ref('patient'),
    encounter: context.record.case.encounter && context.ref('encounter'),
    recordedDate: context.times.date,
    ...rest,
  };
  context.add(role, resource, {
    from,
    summary: present(resource.code?.text, ...(resource.note ?? []).map(({ text }) => text)),
    section,
  });
}

/** A complication's clinical status is left out: the record says how it stood at the end, in words. */
function complication(context: MappingContext, item: Complication): Partial<Condition> {
  const target = item.target === undefined ? undefined : context.record.targets?.[item.target];
  return {
    code: complicationConcept(context.options, item.what),
    severity: item.severity && knownConcept(severityCodes[item.severity], item.severity),
    onsetDateTime: item.at?.iso,
    bodySite: target && [siteConcept(context, target.what, target.side)],
    stage: item.grade && [
      {
        summary: { text: `${item.grade.scale} grade ${item.grade.grade}` },
        type: { text: item.grade.scale },
      },
    ],
    note: some(
      present(
        item.device && `Device: ${deviceName(context, item.device)}`,
        item.target && `At: ${targetName(context, item.target)}`,
        item.suspect && `Put down to: ${item.suspect.text}`,
        item.certainty && `Allergy: ${item.certainty === 'confirmed' ? 'confirmed' : 'not yet confirmed'}`,
        item.action && `Action: ${item.action}`,
        item.treatment && `Treatment: ${item.treatment}`,
        item.stay && `Stay: ${item.stay}`,
        item.harm && `Harm: ${item.harm}`,
        item.result && `At the end: ${item.result}`,
      ).map(text => ({ text })),
    ),
  };
}
