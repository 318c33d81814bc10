import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { secretSource } from '../delivery/auth/secrets.js';
import { destinationAt } from '../delivery/destination/destination.js';
import { openTarget } from '../delivery/destination/open-target.js';
import type { SendDeps } from '../delivery/http/fhir-client.js';
import type { Target } from '../delivery/worker/worker.js';
import { CasetallyError } from '../findings/errors.js';
import type { Finding } from '../findings/finding.js';
import type { Site } from '../site/site.js';

/** A destination with what is needed to talk to it, and the site as it applies to it. */
export interface Connection {
  readonly target: Target;
  readonly deps: SendDeps;
  readonly site: Site;
}

/** Secrets of this process: environment variables and files. */
export const secrets = secretSource(process.env, path => {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
});

/** Clock and request ids of this process. */
export const plainDeps = (): SendDeps => ({ clock: () => Date.now(), newId: () => randomUUID() });

/** The destination of `--to`: a name of the site configuration, or a plain base address; the only one when absent. */
export async function connect(
  site: Site,
  to: string | undefined,
): Promise<{ connection?: Connection; findings: readonly Finding[] }> {
  const names = Object.keys(site.destinations);
  const name = to ?? (names.length === 1 ? names[0] : undefined);
  if (name === undefined)
    throw new CasetallyError(
      'usage',
      names.length === 0
        ? 'no destination: give --to with a base address, or a site configuration with destinations.'
        : `which destination? Give --to with one of: ${names.join(', ')}.`,
    );
  const opened = await openNamed(site, name);
  if (!opened.target) return { findings: opened.findings };
  const { target, findings } = opened;
  const deps: SendDeps = {
    ...plainDeps(),
    ...(target.fetch && { fetch: target.fetch }),
    ...(target.authorize && { authorize: target.authorize }),
  };
  const own = site.destinations[name]?.references ?? {};
  const references = { ...site.references, ...definedOf(own) };
  return { connection: { target, deps, site: { ...site, references } }, findings };
}

async function openNamed(
  site: Site,
  name: string,
): Promise<{ target?: Target; findings: readonly Finding[] }> {
  const settings = site.destinations[name];
  if (settings) return openTarget(name, settings, secrets, () => Date.now());
  if (!/^https?:\/\//.test(name))
    throw new CasetallyError(
      'usage',
      `'${name}' is neither a destination of the site configuration (${Object.keys(site.destinations).join(', ') || 'it has none'}) nor an address.`,
    );
  const { destination, findings } = destinationAt(name);
  return { ...(destination && { target: { destination } }), findings };
}

/** Every destination that outbox items wait for: those of the site, and plain addresses as they were given. */
export async function targetsFor(
  site: Site,
  names: readonly string[],
): Promise<{ targets: Target[]; findings: Finding[] }> {
  const targets: Target[] = [];
  const findings: Finding[] = [];
  for (const name of new Set(names)) {
    if (!site.destinations[name] && !/^https?:\/\//.test(name)) continue;
    const opened = await openNamed(site, name);
    if (opened.target) targets.push(opened.target);
    findings.push(...opened.findings);
  }
  return { targets, findings };
}

type Defined<T> = { [K in keyof T]?: Exclude<T[K], undefined> };

function definedOf<T extends object>(values: T): Defined<T> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Defined<T>;
}
