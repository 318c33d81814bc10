import type { Device, Provenance } from 'fhir/r4.js';
import { activities, agentTypes } from '../codes/document.js';
import { knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { sha256 } from '../ids.js';
import { some } from '../tidy.js';
import { personRef } from './people.js';
import { reportVersion } from './version.js';

/** The software that assembled the resources, and the account of who made them from what. */
export function addProvenance(context: MappingContext): void {
  addSoftware(context);
  const { record, options, times } = context;
  const author = personRef(context, record.report.author);
  const changedBy = personRef(context, record.report.change?.by);
  const version = reportVersion(record);
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
    activity: knownConcept(version.previous === undefined ? activities.create : activities.update),
    location: record.case.location && context.ref('location'),
    agent: [
      ...(author ? [{ type: knownConcept(agentTypes.author), who: author, onBehalfOf }] : []),
      ...(changedBy && changedBy.reference !== author?.reference
        ? [{ type: knownConcept(agentTypes.author), who: changedBy, onBehalfOf }]
        : []),
      { type: knownConcept(agentTypes.assembler), who: context.ref('software'), onBehalfOf },
    ],
    entity: some([
      {
        role: 'source',
        what: {
          identifier: { value: options.sourceDigest ?? sha256(JSON.stringify(record)) },
          display: `Case record ${record.case.id}, format ${record.casetally}, report version ${version.number}`,
        },
      },
    ]),
  };
  context.add('provenance', resource, {
    from: 'report',
    sources: { reason: 'report.change.why', agent: 'report.author' },
    summary: ['Origin of the resources of this case'],
  });
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
function addSoftware(context: MappingContext): void {
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
