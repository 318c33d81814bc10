import type { CareTeam, Practitioner, Reference } from 'fhir/r4.js';
import { functionCodes } from '../codes/document.js';
import { concept, knownBy } from '../concept.js';
import type { MappingContext } from '../context.js';

/** Role of a team member's Practitioner. */
const personRole = (key: string) => `person/${key}`;

/** Reference to a team member; nothing for a key that the team does not have. */
export function personRef(context: MappingContext, key: string | undefined): Reference | undefined {
  const member = context.record.team.find(candidate => candidate.key === key);
  return member && context.ref(personRole(member.key), member.name);
}

/** Those who did the procedure; who referred the patient or looked on is in the team only. */
export function isPerformer(role: string): boolean {
  return role !== 'referrer' && role !== 'observer';
}

/** One Practitioner for each team member, and the team with what each one did. */
export function addPeople(context: MappingContext): void {
  const { record, options } = context;
  for (const [index, member] of record.team.entries()) {
    const role = personRole(member.key);
    // A person without a number is known to this case only.
    const identifier = member.identifier ?? context.identifier(role);
    const resource: Practitioner = {
      resourceType: 'Practitioner',
      identifier: [identifier],
      name: [{ text: member.name }],
      telecom: member.phone === undefined ? undefined : [{ system: 'phone', value: member.phone }],
    };
    context.add(role, resource, {
      from: `team[${index}]`,
      sources: {
        identifier: member.identifier && `team[${index}].identifier`,
        name: `team[${index}].name`,
        telecom: member.phone && `team[${index}].phone`,
      },
      summary: [member.name],
      shared: 'practitioner',
    });
  }
  const team: CareTeam = {
    resourceType: 'CareTeam',
    identifier: [context.identifier('team')],
    status: record.case.status === 'not done' ? 'inactive' : 'active',
    name: `Team of case ${record.case.id}`,
    subject: context.ref('patient'),
    encounter: record.case.encounter && context.ref('encounter'),
    participant: record.team.map(member => ({
      role: [concept(options, member.role, knownBy(functionCodes, member.role))],
      member: context.ref(personRole(member.key), member.name),
      onBehalfOf: member.organization === undefined ? undefined : { display: member.organization },
    })),
  };
  context.add('team', team, {
    from: 'team',
    summary: record.team.map(member => `${member.role}: ${member.name}`),
    section: 'team',
  });
}
