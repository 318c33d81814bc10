import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Definitions } from '../conformance/definitions/definitions.js';
import { type LoadedPackages, loadPackages } from '../conformance/packages/cache.js';
import type { Issue, Validator } from '../conformance/result.js';
import { createValidator } from '../conformance/validator.js';
import { exactText, listAt, objectAt, parseExact, textAt } from '../delivery/answer/exact-json.js';
import { OWN_BASE } from '../fhir/profiles.js';
import { CasetallyError } from '../findings/errors.js';
import { type Finding, finding } from '../findings/finding.js';
import type { Site } from '../site/site.js';
import { defaultCache, definitionsUnder } from './definitions.js';
import type { OpenedSite } from './open-case.js';

/** What a receiver asks of resources, beside what we ask of them ourselves. */
export interface Receiver {
  readonly destination: string;
  /** Addresses of its profiles, by the type that each is of. */
  readonly profiles: ReadonlyMap<string, readonly string[]>;
  readonly validator: Validator;
  /** Packages that could not be had, and profiles that are in none of those that were. */
  readonly findings: readonly Finding[];
}

/** How a type of resource does by one profile of a receiver. */
export interface Conformance {
  readonly type: string;
  readonly profile: string;
  readonly resources: number;
  readonly conforming: number;
  /** What is asked and not there, each once: the element and the rule. */
  readonly lacking: readonly string[];
}

const opened = new Map<string, Receiver>();

/** The receiver of a destination, where its settings name profiles; once read it is kept. Reads packages: an edge. */
export function openReceiver(
  { site, folder }: Pick<OpenedSite, 'site' | 'folder'>,
  destination: string,
  cache: string = defaultCache(),
): Receiver | undefined {
  const { packages = [], receiverProfiles = [] } = site.destinations[destination] ?? {};
  if (receiverProfiles.length === 0) return undefined;
  const canonical = site.fhir.canonical ?? OWN_BASE;
  const key = JSON.stringify([destination, packages, receiverProfiles, folder, cache, canonical]);
  const known = opened.get(key);
  if (known) return known;
  const made = read(site.destinations[destination] ?? {}, destination, { folder, cache, canonical });
  // What was not there may have come by the next case.
  if (made.findings.length === 0) opened.set(key, made);
  return made;
}

function read(
  { packages = [], receiverProfiles = [] }: Partial<Site['destinations'][string]>,
  destination: string,
  {
    folder,
    cache,
    canonical,
  }: { readonly folder: string; readonly cache: string; readonly canonical: string },
): Receiver {
  const path = (one: string) => (existsSync(resolve(folder, one)) ? resolve(folder, one) : one);
  const at = `destinations.${destination}.packages`;
  const builtIn = definitionsUnder(canonical);
  let loaded: LoadedPackages;
  try {
    loaded = loadPackages(builtIn, packages.map(path), cache);
  } catch (error) {
    if (!(error instanceof CasetallyError)) throw error;
    const found = finding('delivery.package-unreadable', at, { destination, why: error.message });
    return { ...receiverBy(builtIn, destination, []), findings: [found] };
  }
  const receiver = receiverBy(loaded.definitions, destination, receiverProfiles);
  const missing = loaded.missing.map(({ name, version, neededBy }) =>
    finding('delivery.package-missing', at, { destination, package: `${name}#${version}`, neededBy, cache }),
  );
  return { ...receiver, findings: [...missing, ...receiver.findings] };
}

/** A receiver that holds resources against the profiles named, as far as they are among the definitions. */
export function receiverBy(
  definitions: Definitions,
  destination: string,
  addresses: readonly string[],
): Receiver {
  const profiles = new Map<string, string[]>();
  const findings: Finding[] = [];
  for (const profile of addresses) {
    const type = definitions.structure(profile)?.type;
    if (type !== undefined) profiles.set(type, [...(profiles.get(type) ?? []), profile]);
    else
      findings.push(
        finding('delivery.profile-missing', `destinations.${destination}.receiverProfiles`, {
          destination,
          profile,
        }),
      );
  }
  return { destination, profiles, validator: createValidator(definitions), findings };
}

/** Holds the resources of a submission against the profiles of a receiver. */
export function conformanceTo({ profiles, validator }: Receiver, submission: string): Conformance[] {
  const resources = listAt(parseExact(submission), 'entry')
    .map(entry => objectAt(entry, 'resource'))
    .filter(resource => resource !== undefined);
  return [...profiles].flatMap(([type, ofType]) => {
    const those = resources.filter(resource => textAt(resource, 'resourceType') === type);
    return ofType.map(profile => {
      const found = those.flatMap(({ meta: _, ...resource }) => {
        const issues = validator
          .validateText(exactText(resource), { profiles: [profile] })
          .issues.filter(({ severity }) => severity === 'error' || severity === 'fatal');
        return issues.some(isOfAnother) ? [] : [issues];
      });
      const lacking = found.flat().map(({ path, message }) => `${path.replace(/\[\d+\]/g, '')}: ${message}`);
      return {
        ...{ type, profile, resources: found.length },
        conforming: found.filter(issues => issues.length === 0).length,
        lacking: [...new Set(lacking)],
      };
    });
  });
}

/** True where a profile says by code or category what it is about, and this is about something else. */
function isOfAnother({ rule, source }: Issue): boolean {
  const chooses = rule === 'fixed' || rule === 'pattern' || rule === 'min';
  return chooses && /^\w+\.(?:code|category)(?:$|[.:])/.test(source?.element ?? '');
}

/** What a receiver asks and a submission does not have: one finding for each profile. */
export function receiverFindings(receiver: Receiver, submission: string): Finding[] {
  const { destination } = receiver;
  return [
    ...receiver.findings,
    ...conformanceTo(receiver, submission)
      .filter(({ lacking }) => lacking.length > 0)
      .map(({ type, profile, resources, conforming, lacking }) =>
        finding('delivery.receiver-profile', 'destination', {
          ...{ destination, type, profile, what: lacking.join('; ') },
          count: `${resources - conforming}/${resources}`,
        }),
      ),
  ];
}
