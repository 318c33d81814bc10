import { referencesIn } from './bundles/references.js';
import type { CaseResource, ResourceEntry, ResourceSet } from './set.js';

/** One kind of content: what a receiver finds in it, and whether a record system wants it unasked. */
interface Group {
  /** Types of the resources in it. */
  readonly types: readonly string[];
  readonly core: boolean;
  /** Why a receiver wants it, for the docs. */
  readonly why: string;
  has(entry: ResourceEntry): boolean;
}

const typed = (...types: readonly CaseResource['resourceType'][]): Group['has'] => {
  const wanted = new Set<string>(types);
  return ({ resource }) => wanted.has(resource.resourceType);
};
const named =
  (roles: RegExp): Group['has'] =>
  ({ role }) =>
    roles.test(role);

/** Lot, serial number or identifier of a device: what a recall asks for. */
function isTraceable({ resource }: ResourceEntry): boolean {
  if (resource.resourceType !== 'Device') return false;
  const { udiCarrier, lotNumber, serialNumber } = resource;
  return udiCarrier !== undefined || lotNumber !== undefined || serialNumber !== undefined;
}

const ofPatient = ({ resource }: ResourceEntry): boolean =>
  resource.resourceType === 'Device' && resource.patient !== undefined;

/**
 * The table of contents: every resource belongs to the first group that has it. A submission of core carries what a
 * record system stores and searches; what it leaves out stands in the document. Shared resources (patient, people,
 * places, encounter, order) are not in it: `references` says how those are pointed at.
 */
export const contentGroups = {
  procedure: {
    types: ['Procedure'],
    core: true,
    why: 'what was done, when, by whom and with what result',
    has: named(/^procedure$/),
  },
  steps: {
    types: ['Procedure'],
    core: false,
    why: 'each part of the case as a procedure of its own',
    has: typed('Procedure'),
  },
  devicesInPatient: { types: ['Device'], core: true, why: 'what is, or was, in the patient', has: ofPatient },
  tracedDevices: {
    types: ['Device'],
    core: true,
    why: 'lots and serial numbers of what was used',
    has: isTraceable,
  },
  tools: {
    types: ['Device'],
    core: false,
    why: 'devices without label; the procedure names their kinds',
    has: named(/^device\//),
  },
  deviceUses: {
    types: ['DeviceUseStatement'],
    core: true,
    why: 'what stays, until when',
    has: typed('DeviceUseStatement'),
  },
  complications: { types: ['Condition'], core: true, why: 'what went wrong', has: named(/^complication\//) },
  adverseEvents: {
    types: ['AdverseEvent'],
    core: true,
    why: 'what is suspected to have caused harm',
    has: typed('AdverseEvent'),
  },
  newAllergies: {
    types: ['AllergyIntolerance'],
    core: true,
    why: 'allergies that the case showed',
    has: named(/^allergy\/found-/),
  },
  negativeStatements: {
    types: ['AllergyIntolerance', 'MedicationStatement', 'Procedure', 'MedicationAdministration'],
    core: true,
    why: 'that there is none, where the site sends that',
    has: named(/\/none$/),
  },
  knownAllergies: {
    types: ['AllergyIntolerance'],
    core: false,
    why: 'allergies that were known before',
    has: typed('AllergyIntolerance'),
  },
  knownConditions: {
    types: ['Condition'],
    core: false,
    why: 'diagnoses that were known before',
    has: typed('Condition'),
  },
  dose: {
    types: ['Observation'],
    core: true,
    why: 'radiation of the case',
    has: ({ section }) => section === 'dose',
  },
  calculations: {
    types: ['Observation'],
    core: false,
    why: 'worked-out figures',
    has: named(/^calculation\//),
  },
  observations: {
    types: ['Observation'],
    core: false,
    why: 'findings, measurements, laboratory values, checks',
    has: typed('Observation'),
  },
  drugs: {
    types: ['MedicationAdministration'],
    core: true,
    why: 'drugs and contrast given',
    has: typed('MedicationAdministration'),
  },
  anticoagulants: {
    types: ['MedicationStatement'],
    core: false,
    why: 'anticoagulants taken before',
    has: typed('MedicationStatement'),
  },
  specimens: {
    types: ['Specimen'],
    core: true,
    why: 'what was sent to the laboratory',
    has: typed('Specimen'),
  },
  planned: { types: ['ServiceRequest'], core: false, why: 'what was planned', has: named(/^planned$/) },
  requests: {
    types: ['ServiceRequest'],
    core: true,
    why: 'aftercare, as requests; `requests: false` beside `tasks: true` leaves those of items without a day',
    has: named(/^aftercare\//),
  },
  plan: { types: ['CarePlan'], core: true, why: 'the aftercare as one plan', has: typed('CarePlan') },
  tasks: {
    types: ['Task'],
    core: false,
    why: 'aftercare with a day, as tasks: beside their requests, or alone with `requests: false`',
    has: typed('Task'),
  },
  bodySites: {
    types: ['BodyStructure'],
    core: false,
    why: 'accesses and targets as structures',
    has: typed('BodyStructure'),
  },
  consent: { types: ['Consent'], core: false, why: 'the consent', has: typed('Consent') },
  team: {
    types: ['CareTeam', 'PractitionerRole'],
    core: false,
    why: 'the team of the case',
    has: typed('CareTeam', 'PractitionerRole'),
  },
  software: { types: ['Device'], core: false, why: 'the program that wrote it', has: named(/^software$/) },
  document: {
    types: ['Composition', 'DocumentReference', 'DiagnosticReport'],
    core: true,
    why: 'the report',
    has: typed('Composition', 'DocumentReference', 'DiagnosticReport'),
  },
  provenance: { types: ['Provenance'], core: true, why: 'where it came from', has: typed('Provenance') },
} as const satisfies Record<string, Group>;

export type ContentGroup = keyof typeof contentGroups;
export const contentGroupNames = Object.keys(contentGroups) as [ContentGroup, ...ContentGroup[]];

/** What a destination wants of a case. */
export interface Contents {
  readonly contents: 'core' | 'full';
  /** Groups that are wanted, or not, whatever `contents` says. */
  readonly groups?: Readonly<Partial<Record<ContentGroup, boolean | undefined>>>;
}

/** True where a destination keeps its aftercare as tasks: what has no day to be done by has no task and goes as a request. */
const keepsTasksAlone = ({ contents, groups = {} }: Contents): boolean =>
  groups.requests === false && (groups.tasks ?? contents === 'full');

/** The types of resource that a destination may be sent, shared ones aside. */
export function typesWanted(asked: Contents): Set<string> {
  const { contents, groups = {} } = asked;
  const wants = (name: ContentGroup) =>
    (name === 'requests' && keepsTasksAlone(asked)) ||
    (groups[name] ?? (contents === 'full' || contentGroups[name].core));
  return new Set(contentGroupNames.filter(wants).flatMap(name => contentGroups[name].types));
}

/** Group of a resource; undefined for one that is shared. */
export function groupOf(entry: ResourceEntry): ContentGroup | undefined {
  return entry.shared ? undefined : contentGroupNames.find(name => contentGroups[name].has(entry));
}

/**
 * The resources of a set that a destination wants, in their order. What went there before goes again, whatever is wanted
 * now, so that a correction leaves nothing behind.
 * @param sent addresses of what an earlier version sent there
 */
export function wantedOf(
  { entries }: ResourceSet,
  wanting: Contents,
  sent: ReadonlySet<string> = new Set(),
): ReadonlySet<ResourceEntry> {
  const { contents, groups = {} } = wanting;
  const used = new Set(
    entries.flatMap(({ resource }) =>
      resource.resourceType === 'Procedure' ? (resource.usedReference ?? []).map(r => r.reference) : [],
    ),
  );
  const tasksAlone = keepsTasksAlone(wanting);
  const asTask = new Set(
    entries.flatMap(({ resource }) =>
      resource.resourceType === 'Task' ? (resource.basedOn ?? []).map(r => r.reference) : [],
    ),
  );
  const wants = (entry: ResourceEntry): boolean => {
    const group = groupOf(entry);
    if (group === undefined || sent.has(entry.fullUrl)) return true;
    if (group === 'requests' && tasksAlone) return !asTask.has(entry.fullUrl);
    const asked = groups[group];
    if (asked !== undefined || contents === 'full') return asked ?? true;
    // Opened or not, what was not used is of no use to a record.
    return (
      contentGroups[group].core &&
      (group !== 'tracedDevices' || entry.earlier === true || used.has(entry.fullUrl))
    );
  };
  const wanted = new Set(entries.filter(wants));
  const byUrl = new Map(entries.map(entry => [entry.fullUrl, entry]));
  // A use without its device and an event without its suspect would say nothing; a task needs its request unless the
  // destination keeps tasks alone.
  for (const { resource } of [...wanted]) {
    const needed =
      resource.resourceType === 'DeviceUseStatement'
        ? [resource.device]
        : resource.resourceType === 'AdverseEvent'
          ? (resource.suspectEntity ?? [])
          : resource.resourceType === 'Task'
            ? tasksAlone
              ? []
              : (resource.basedOn ?? [])
            : [];
    for (const address of referencesIn(needed)) {
      const entry = byUrl.get(address);
      if (entry) wanted.add(entry);
    }
  }
  return wanted;
}
