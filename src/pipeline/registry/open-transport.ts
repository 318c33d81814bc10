import { resolve } from 'node:path';
import type { SecretSource } from '../../delivery/auth/secrets.js';
import { openSession, type SendDeps } from '../../delivery/destination/session.js';
import { CasetallyError } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import { openDestination } from '../destinations.js';
import type { OpenedSite } from '../open-case.js';
import type { RegistryInUse } from './in-use.js';
import { FhirTransport } from './transport/fhir.js';
import { FolderTransport } from './transport/folder.js';
import { HttpsTransport } from './transport/https.js';
import { authorisedOnce } from './transport/say.js';
import type { Transport } from './transport/transport.js';

/** The way to a registry, or what stands against it. */
export interface OpenedTransport {
  readonly transport?: Transport;
  readonly findings: readonly Finding[];
  /** How long the registry may not find yet what it accepted, in milliseconds. */
  readonly settleMs: number;
}

/**
 * Opens the way that the definition of a registry names, with the settings of the site.
 * @throws CasetallyError 'settings-invalid' where the site does not say where it leads.
 */
export async function openTransport(
  { name, options, definition }: RegistryInUse,
  { site, folder }: OpenedSite,
  deps: SendDeps,
  secrets: SecretSource,
): Promise<OpenedTransport> {
  if (!definition)
    throw new CasetallyError(
      'settings-invalid',
      `registry '${name}' has no definition: name its file under registries.${name}.definition of the site configuration.`,
    );
  const { transport } = definition;
  if (transport.kind === 'folder') {
    if (options.folder === undefined) throw missing(name, 'folder', 'folder that batches are put in');
    const answers = options.answers === undefined ? undefined : resolve(folder, options.answers);
    return {
      transport: new FolderTransport(resolve(folder, options.folder), answers, transport.file),
      findings: [],
      settleMs: 0,
    };
  }
  if (options.destination === undefined)
    throw missing(name, 'destination', 'destination that the registry is');
  const { target, findings } = await openDestination(site, options.destination, secrets, deps.clock);
  if (!target) return { findings, settleMs: 0 };
  const mediaType = transport.kind === 'https' ? transport.mediaType : target.destination.mediaType;
  const session = openSession({ ...target.destination, mediaType }, { ...deps, ...target });
  const again = authorisedOnce(session.authorised);
  if (transport.kind === 'https')
    return { transport: new HttpsTransport(session, transport.path, again), findings, settleMs: 0 };
  return {
    transport: new FhirTransport(session, options, again),
    findings,
    settleMs: session.destination.searchLagMs,
  };
}

const missing = (name: string, field: string, what: string): CasetallyError =>
  new CasetallyError(
    'settings-invalid',
    `registry '${name}' does not say which ${what}: set registries.${name}.${field} in the site configuration.`,
  );
