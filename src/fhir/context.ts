import type { Coding, Narrative as FhirNarrative, Identifier, Reference } from 'fhir/r4.js';
import type { Assessment } from '../clinical/assessment.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { SectionKey } from './codes/sections.js';
import { caseUuid } from './ids.js';
import type { Narrative } from './narrative.js';
import type { MappingOptions, SharedKind } from './options.js';
import { claimed } from './profiles.js';
import { type ReportVersion, reportVersion } from './resources/version.js';
import type { CaseResource, ResourceEntry, ResourceSet } from './set.js';
import { tidy } from './tidy.js';
import { type CaseTimes, caseTimes } from './times.js';
import { divOf } from './xhtml.js';

/** What comes with a resource when it joins the set. */
export interface EntryFacts {
  /** Path in the case record of the resource as a whole. */
  readonly from: string;
  /** Element name (`status`, `code.text`) to record path, where it differs from `from`. */
  readonly sources?: Readonly<Record<string, string | undefined>>;
  /** Lines of the short narrative; the Composition brings its own. */
  readonly summary?: readonly string[];
  readonly section?: SectionKey;
  readonly shared?: SharedKind;
}

/** What every mapper works with: the case, the settings, and the growing set. */
export interface MappingContext {
  readonly record: CaseRecord;
  readonly assessment: Assessment;
  readonly narrative: Narrative;
  readonly options: MappingOptions;
  readonly times: CaseTimes;
  readonly version: ReportVersion;
  /** What earlier versions of the report sent, oldest first. */
  readonly earlier: readonly ResourceSet[];
  readonly entries: ResourceEntry[];
  /** The identifier that every resource of the role carries. */
  identifier(role: string): Identifier & { system: string; value: string };
  /** A tag that finds a resource which has no identifier element. */
  tag(role: string): Coding & { system: string; code: string };
  /** Reference to the resource of a role, which must join the set before the mapping ends. */
  ref(role: string, display?: string): Reference;
  /** Adds a resource under its role. */
  add(role: string, resource: CaseResource, facts: EntryFacts): void;
}

/** Starts an empty set for one case. */
export function mappingContext(
  record: CaseRecord,
  assessment: Assessment,
  narrative: Narrative,
  options: MappingOptions,
  earlier: readonly ResourceSet[] = [],
): MappingContext {
  const entries: ResourceEntry[] = [];
  // The software is the same for all cases; everything else belongs to one.
  const uuid = (role: string) =>
    role === 'software'
      ? caseUuid(options.namespace, '', `software/${options.softwareVersion}`)
      : caseUuid(options.namespace, record.case.id, role);
  return {
    record,
    assessment,
    narrative,
    options,
    times: caseTimes(record),
    version: reportVersion(
      record,
      earlier.map(set => set.version),
    ),
    earlier,
    entries,
    identifier: role => ({ system: options.identifiers.resource, value: uuid(role) }),
    tag: role => ({ system: options.identifiers.resource, code: uuid(role) }),
    ref: (role, display) => ({
      reference: `urn:uuid:${uuid(role)}`,
      ...(display !== undefined && { display }),
    }),
    add: (role, resource, facts) => {
      if (facts.summary) {
        const text: FhirNarrative = { status: 'generated', div: divOf(facts.summary) };
        resource.text = text;
      }
      const profile = claimed(role, resource.meta?.profile, options.canonical);
      if (profile.length > 0) resource.meta = { ...resource.meta, profile };
      entries.push({
        role,
        fullUrl: `urn:uuid:${uuid(role)}`,
        resource: tidy(resource),
        sources: sourcesOf(resource.resourceType, facts),
        ...(facts.shared && { shared: facts.shared }),
        ...(facts.section && { section: facts.section }),
        ...businessIdentifier(resource, uuid(role)),
      });
    },
  };
}

function sourcesOf(type: string, facts: EntryFacts): Record<string, string> {
  const sources: Record<string, string> = { [type]: facts.from };
  for (const [element, path] of Object.entries(facts.sources ?? {}))
    if (path !== undefined) sources[`${type}.${element}`] = path;
  return sources;
}

function businessIdentifier(
  resource: CaseResource,
  made: string,
): Pick<ResourceEntry, 'identifier' | 'caseOnly'> {
  // Found by their tags: R4 gives the one no identifier, and the other no search by it.
  if (resource.resourceType === 'Provenance' || resource.resourceType === 'AdverseEvent') return {};
  const own = Array.isArray(resource.identifier) ? resource.identifier[0] : resource.identifier;
  const { system, value, ...rest } = own ?? {};
  if (!system || !value) return {};
  return { identifier: { ...rest, system, value }, ...(value === made && { caseOnly: true }) };
}
