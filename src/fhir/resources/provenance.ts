import type { Device, Provenance } from 'fhir/r4.js';
import { say } from '../../findings/say.js';
import { recordDigest } from '../../record/digest.js';
import { sourcedValues } from '../../record/sourced.js';
import { activities, agentTypes } from '../codes/document.js';
import type { KnownCode } from '../codes/types.js';
import { knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { documentOf } from './document-reference.js';
import { personRef } from './people.js';

/** The account of who made the resources from what, and why they changed. */
export function addProvenance(context: MappingContext): void {
  const { record, options, times, version } = context;
  const author = personRef(context, record.report.author);
  const changedBy = personRef(context, record.report.change?.by);
  const onBehalfOf = context.ref('organization');
  const resource: Provenance = {
    resourceType: 'Provenance',
    // Provenance has no identifier in R4: the tag is what finds it again.
    meta: { tag: [context.tag(`provenance/v${version.number}`)] },
    // Everything that is the case's own; what other systems keep did not come from it.
    target: context.entries
      .filter(entry => !entry.shared || entry.caseOnly)
      .map(entry => context.ref(entry.role)),
    ...occurred(context),
    recorded: times.timestamp,
    reason: record.report.change && [{ text: record.report.change.why }],
    activity: knownConcept(activityOf(context)),
    location: record.case.location && context.ref('location'),
    agent: [
      ...(author ? [{ type: knownConcept(agentTypes.author), who: author, onBehalfOf }] : []),
      ...(changedBy && changedBy.reference !== author?.reference
        ? [{ type: knownConcept(agentTypes.author), who: changedBy, onBehalfOf }]
        : []),
      { type: knownConcept(agentTypes.assembler), who: context.ref('software'), onBehalfOf },
    ],
    entity: [
      {
        role: 'source',
        what: {
          identifier: { value: recordDigest(record) },
          display: `Content of case record ${record.case.id}, format ${record.casetally}, report version ${version.number}`,
        },
      },
      ...(options.sourceDigest === undefined
        ? []
        : [
            {
              role: 'source' as const,
              what: {
                identifier: { value: options.sourceDigest },
                display: `File of case record ${record.case.id}, as it was read`,
              },
            },
          ]),
      ...sourcesOf(context),
      ...version.follows.map(follows => ({ role: 'revision' as const, what: documentOf(context, follows) })),
    ],
  };
  context.add('provenance', resource, {
    from: 'report',
    sources: {
      reason: 'report.change.why',
      agent: 'report.author',
      entity: record.sources && 'sources',
    },
    summary: ['Origin of the resources of this case'],
  });
}

/** What was not typed came from these: an order, a kit, a dose report. They are no resources, so words name them. */
function sourcesOf({ record }: MappingContext): NonNullable<Provenance['entity']> {
  return sourcedValues(record).map(({ source, at, places }) => ({
    role: 'source' as const,
    what: { display: `${say(source)}, ${at.iso}: ${places.map(place => say(place)).join('; ')}` },
  }));
}

function activityOf({ record, version }: MappingContext): KnownCode {
  if (record.report.status === 'withdrawn') return activities.nullify;
  if (version.follows.length === 0) return activities.create;
  return record.report.status === 'appended' ? activities.append : activities.update;
}

/** When it happened: the change, for a changed report; else the case. */
function occurred({
  record,
  times,
}: MappingContext): Pick<Provenance, 'occurredDateTime' | 'occurredPeriod'> {
  const changed = record.report.change?.at;
  if (changed) return { occurredDateTime: changed.iso };
  return times.start || times.end ? { occurredPeriod: { start: times.start, end: times.end } } : {};
}

/**
 * The software as a Device: the same one for all cases that a version of it prepares at a site. It must hold nothing
 * of one case, else the second case would find another content under the same identifier.
 */
export function addSoftware(context: MappingContext): void {
  const resource: Device = {
    resourceType: 'Device',
    identifier: [context.identifier('software')],
    deviceName: [{ name: 'Casetally', type: 'user-friendly-name' }],
    type: { text: 'Software' },
    version: [{ value: context.options.softwareVersion }],
  };
  context.add('software', resource, {
    from: 'report',
    summary: [`Casetally ${context.options.softwareVersion}`],
  });
}
