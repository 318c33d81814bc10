import type { SecretSource } from '../delivery/auth/secrets.js';
import { destinationAt } from '../delivery/destination/destination.js';
import { openTarget } from '../delivery/destination/open-target.js';
import type { Target } from '../delivery/destination/session.js';
import { CasetallyError } from '../findings/errors.js';
import type { Finding } from '../findings/finding.js';
import type { CaseRecord } from '../record/schema/record.js';
import { routesOf } from '../site/routes.js';
import type { Site } from '../site/site.js';

/** Where a case goes when no destination is named: by the routes, else the only one there is; empty when one must be named. */
export function goesTo(site: Site, record: CaseRecord | undefined): string[] {
  if (site.routes.length > 0 && record) return routesOf(site.routes, record);
  const names = Object.keys(site.destinations);
  return names.length === 1 ? names : [];
}

/**
 * The destinations of a case: the one named, else where it goes by itself.
 *
 * @param flag what a destination is named with, for the message: `--to`.
 * @throws CasetallyError 'usage' when one must be named.
 */
export function destinationsOf(
  site: Site,
  record: CaseRecord | undefined,
  to: string | undefined,
  flag = '--to',
): string[] {
  const names = to === undefined ? goesTo(site, record) : [to];
  if (names.length > 0) return names;
  const known = Object.keys(site.destinations);
  if (record && site.routes.length > 0)
    throw new CasetallyError(
      'usage',
      `no route of the site configuration takes a ${record.report.status} case of kind '${record.case.kind}': give ${flag}, or add a route.`,
    );
  throw new CasetallyError(
    'usage',
    known.length === 0
      ? `no destination: give ${flag} with a base address, or a site configuration with destinations.`
      : `which destination? Give ${flag} with one of: ${known.join(', ')}.`,
  );
}

/** A destination ready to be spoken to, or what is wrong with its settings. */
export interface OpenedTarget {
  readonly target?: Target;
  readonly findings: readonly Finding[];
}

/** Opens a destination: a name of the site configuration, or a plain base address. */
export async function openDestination(
  site: Site,
  name: string,
  secrets: SecretSource,
  clock: () => number,
): Promise<OpenedTarget> {
  const settings = site.destinations[name];
  if (settings) return openTarget(name, settings, secrets, clock);
  if (!isAddress(name))
    throw new CasetallyError(
      'usage',
      `'${name}' is neither a destination of the site configuration (${Object.keys(site.destinations).join(', ') || 'it has none'}) nor an address.`,
    );
  const { destination, findings } = destinationAt(name);
  return { ...(destination && { target: { destination } }), findings };
}

/** Every destination that outbox items wait for: those of the site, and plain addresses as they were given. */
export async function openDestinations(
  site: Site,
  names: readonly string[],
  secrets: SecretSource,
  clock: () => number,
): Promise<{ targets: Target[]; findings: Finding[] }> {
  const known = [...new Set(names)].filter(name => site.destinations[name] || isAddress(name));
  const opened: OpenedTarget[] = [];
  for (const name of known) opened.push(await openDestination(site, name, secrets, clock));
  return {
    targets: opened.flatMap(({ target }) => target ?? []),
    findings: opened.flatMap(({ findings }) => findings),
  };
}

const isAddress = (name: string) => /^https?:\/\//.test(name);

/** The site as a destination has it: with what it wants of a case, and its own way of referring to what is there. */
export function siteFor(site: Site, name: string): Site {
  const { references = {}, contents = site.fhir.contents, groups = {} } = site.destinations[name] ?? {};
  const own = Object.entries(references).filter(([, how]) => how !== undefined);
  return {
    ...site,
    references: { ...site.references, ...Object.fromEntries(own) },
    fhir: { ...site.fhir, contents, groups: { ...site.fhir.groups, ...groups } },
  };
}
