import type {
  AdverseEvent,
  AllergyIntolerance,
  BodyStructure,
  Bundle,
  CarePlan,
  CareTeam,
  Composition,
  Condition,
  Consent,
  Device,
  DeviceUseStatement,
  DiagnosticReport,
  DocumentReference,
  Encounter,
  Identifier,
  Location,
  MedicationAdministration,
  MedicationStatement,
  Observation,
  Organization,
  Patient,
  Practitioner,
  PractitionerRole,
  Procedure,
  Provenance,
  ServiceRequest,
  Specimen,
  Task,
} from 'fhir/r4.js';
import type { SectionKey } from './codes/sections.js';
import type { SharedKind } from './options.js';

/** Every type of resource that a case is mapped to. */
export type CaseResource =
  | AdverseEvent
  | AllergyIntolerance
  | BodyStructure
  | CarePlan
  | CareTeam
  | Composition
  | Condition
  | Consent
  | Device
  | DeviceUseStatement
  | DiagnosticReport
  | DocumentReference
  | Encounter
  | Location
  | MedicationAdministration
  | MedicationStatement
  | Observation
  | Organization
  | Patient
  | Practitioner
  | PractitionerRole
  | Procedure
  | Provenance
  | ServiceRequest
  | Specimen
  | Task;

/** One mapped resource and what is known about it beside its content. */
export interface ResourceEntry {
  /** Stable name in the case: `procedure`, `device/drain`, `use/drain`, `observation/kerma-area-product`. */
  readonly role: string;
  /** `urn:uuid:` address by which the other resources of the case refer to it. */
  readonly fullUrl: string;
  readonly resource: CaseResource;
  /** Element path inside the resource (`Procedure.status`) to the path in the case record that it came from. */
  readonly sources: Readonly<Record<string, string>>;
  /** Set for resources that another system keeps: a submission may point at them in place of sending them. */
  readonly shared?: SharedKind;
  /** The business identifier that finds it; absent where R4 has none, or no search by it. */
  readonly identifier?: Identifier & { readonly system: string; readonly value: string };
  /** True for a shared resource without a number of its own: its identifier is made from the case. */
  readonly caseOnly?: boolean;
  /** Section of the document that lists it. */
  readonly section?: SectionKey;
  /** True for what an earlier version of the report sent and this one retires; it is no part of the document. */
  readonly earlier?: true;
  /** True for a Task that an earlier version asked for already, in the same words: a receiver may be at work on it. */
  readonly asked?: true;
}

/** The resources of one case, in a stable order. They refer to each other by `fullUrl`. */
export interface ResourceSet {
  readonly entries: readonly ResourceEntry[];
  /** Identifier of this version of the document: another one for each version of the report. */
  readonly document: { readonly system: string; readonly value: string };
  /** Version of the report, as its documents are numbered. */
  readonly version: string;
  /** FHIR instant, from the signature or the end of the case. */
  readonly timestamp: string;
  /** True when the report changes one that was sent before. */
  readonly revision: boolean;
}

/**
 * The path in the case record behind an element of a bundle, for validation and server messages.
 * @param path FHIRPath of the element: `Bundle.entry[2].resource.code.coding[0]`; the nearest known ancestor counts
 */
export function recordPathOf(set: ResourceSet, bundle: Bundle, path: string): string | undefined {
  const parts = /^Bundle\.entry\[(\d+)\](?:\.resource(?:\.ofType\(\w+\))?)?(.*)$/.exec(path);
  const fullUrl = parts && bundle.entry?.[Number(parts[1])]?.fullUrl;
  const entry = set.entries.find(candidate => candidate.fullUrl === fullUrl);
  return entry && sourceOf(entry, `${entry.resource.resourceType}${parts?.[2] ?? ''}`);
}

/** The path in the case record behind an element of one resource of the set; the nearest known ancestor counts. */
export function sourceOf(entry: ResourceEntry, path: string): string | undefined {
  return nearestSource(entry.sources, path);
}

/** Looks up an element path, or its nearest ancestor that has an entry. */
export function nearestSource(sources: Readonly<Record<string, string>>, path: string): string | undefined {
  let at = path;
  for (;;) {
    const found = sources[at];
    if (found !== undefined) return found;
    const shorter = at.endsWith(']') ? at.slice(0, at.lastIndexOf('[')) : at.slice(0, at.lastIndexOf('.'));
    if (shorter === at || !/[.[]/.test(at)) return undefined;
    at = shorter;
  }
}
