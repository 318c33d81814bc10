import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { authorizerFor } from '../delivery/auth/authorizer.js';
import { secretSource } from '../delivery/auth/secrets.js';
import { type Destination, destinationAt } from '../delivery/destination.js';
import { configuredDestination } from '../delivery/destination-schema.js';
import type { SendDeps } from '../delivery/fhir-client.js';
import { CasetallyError } from '../findings/errors.js';
import type { Finding } from '../findings/finding.js';
import type { Site } from '../site/site.js';

/** A destination with what is needed to talk to it, and the site as it applies to it. */
export interface Connection {
  readonly destination: Destination;
  readonly deps: SendDeps;
  readonly site: Site;
}

/** Secrets of this process: environment variables and files. */
const secrets = secretSource(process.env, path => {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
});

const plainDeps = (): SendDeps => ({ clock: () => Date.now(), newId: () => randomUUID() });

/** The destination of `--to`: a name of the site configuration, or a plain base address; the only one when absent. */
export function connect(
  site: Site,
  to: string | undefined,
): { connection?: Connection; findings: readonly Finding[] } {
  const names = Object.keys(site.destinations);
  const name = to ?? (names.length === 1 ? names[0] : undefined);
  if (name === undefined)
    throw new CasetallyError(
      'usage',
      names.length === 0
        ? 'no destination: give --to with a base address, or a site configuration with destinations.'
        : `which destination? Give --to with one of: ${names.join(', ')}.`,
    );
  const settings = site.destinations[name];
  if (settings) {
    const { destination, findings } = configuredDestination(name, settings, secrets);
    if (!destination) return { findings };
    const deps = plainDeps();
    const authorize = authorizerFor(settings.auth, destination, secrets, {
      ...deps,
      fetch: globalThis.fetch,
    });
    const references = { ...site.references, ...definedOf(settings.references ?? {}) };
    return {
      connection: { destination, deps: { ...deps, authorize }, site: { ...site, references } },
      findings,
    };
  }
  if (!/^https?:\/\//.test(name))
    throw new CasetallyError(
      'usage',
      `'${name}' is neither a destination of the site configuration (${names.join(', ') || 'it has none'}) nor an address.`,
    );
  const { destination, findings } = destinationAt(name);
  return destination ? { connection: { destination, deps: plainDeps(), site }, findings } : { findings };
}

type Defined<T> = { [K in keyof T]?: Exclude<T[K], undefined> };

function definedOf<T extends object>(values: T): Defined<T> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Defined<T>;
}
