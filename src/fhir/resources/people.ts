import type { CareTeam, Practitioner, PractitionerRole, Reference } from 'fhir/r4.js';
import { roleConcept } from '../concepts.js';
import type { MappingContext } from '../context.js';
import { present } from '../tidy.js';
import { humanName } from './human-name.js';

/** Role of a team member's Practitioner. */
const personRole = (key: string) => `person/${key}`;

/** Role of the PractitionerRole of a member who belongs to another organization. */
const postRole = (key: string) => `person-role/${key}`;

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
      name: [humanName(member)],
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
    if (member.organization !== undefined) addPost(context, member, index);
  }
  const team: CareTeam = {
    resourceType: 'CareTeam',
    identifier: [context.identifier('team')],
    status: record.case.status === 'not done' ? 'inactive' : 'active',
    name: `Team of case ${record.case.id}`,
    subject: context.ref('patient'),
    encounter: record.case.encounter && context.ref('encounter'),
    participant: record.team.map(member => ({
      role: [roleConcept(options, member.role)],
      member: context.ref(
        member.organization === undefined ? personRole(member.key) : postRole(member.key),
        member.name,
      ),
    })),
  };
  context.add('team', team, {
    from: 'team',
    summary: record.team.map(member => `${member.role}: ${member.name}`),
    section: 'team',
  });
}

/** Ties a person to the organization that they came from, which the case knows by name only. */
function addPost(
  context: MappingContext,
  member: MappingContext['record']['team'][number],
  index: number,
): void {
  const resource: PractitionerRole = {
    resourceType: 'PractitionerRole',
    identifier: [context.identifier(postRole(member.key))],
    practitioner: context.ref(personRole(member.key), member.name),
    organization: { display: member.organization },
    code: [roleConcept(context.options, member.role)],
  };
  context.add(postRole(member.key), resource, {
    from: `team[${index}].organization`,
    summary: present(member.name, member.role, member.organization),
  });
}
