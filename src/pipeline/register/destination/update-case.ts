import {
  type HeldResource,
  isPart,
  type Look,
  lookFor,
  readHeld,
  writeHeld,
} from '../../../delivery/change/held-resource.js';
import { speaks } from '../../../delivery/destination/capability.js';
import type { Session } from '../../../delivery/destination/session.js';
import { capabilitiesOf } from '../../../delivery/request/fits.js';
import { type Finding, finding } from '../../../findings/finding.js';
import type { Owed, OwedCase, OwedWork } from '../../../register/store/owed.js';
import { Owners } from './ownership.js';
import { stepOf } from './step.js';
import { type WantedResource, wantedResources } from './wanted.js';

/** A resource that was changed. */
export interface Updated {
  /** `Device/12` */
  readonly address: string;
  readonly status: string;
}

/** What came of a case at a destination: done, tried again by itself, or a matter for a person. */
export interface UpdatedCase {
  readonly updated: readonly Updated[];
  readonly findings: readonly Finding[];
  readonly came: 'done' | 'later' | 'held';
  /** Why it is not done. */
  readonly reason?: string;
  /** When it can be tried again, where that is known: milliseconds since 1970, or a wait that the server asked for. */
  readonly notBefore?: number;
  readonly waitMs?: number;
}

export interface UpdateOptions {
  readonly owed: Pick<Owed, 'remember' | 'forget'>;
  /** Of the site, from which the identifiers of a case's resources are made. */
  readonly namespace: string;
  /** System of those identifiers. */
  readonly resourceSystem: string;
  /** True to change resources of which the destination tells no version. */
  readonly withoutVersions?: boolean;
}

/** How often a resource is read again that others write at the same time. */
const TRIES = 4;

/** Why it stops in the middle. */
class Stopped extends Error {
  readonly came: UpdatedCase;

  constructor(came: Omit<UpdatedCase, 'updated' | 'findings'>, ...findings: readonly Finding[]) {
    super(came.reason);
    this.came = { ...came, updated: [], findings };
  }
}

/**
 * Brings what a destination has of a case to what later cases say of it: reads each resource, changes the elements
 * concerned and no others, and writes it back under `If-Match`. What stands there as it should is not written. Where a
 * resource is no longer about the patient or the device of the case, nothing of the case is changed.
 */
export async function updateCase(
  { case: name, destination: to }: Pick<OwedCase, 'case' | 'destination'>,
  work: OwedWork,
  session: Session,
  options: UpdateOptions,
): Promise<UpdatedCase> {
  const of = { case: name, destination: to };
  const wanted = wantedResources(name, work, options.namespace, session.destination);
  const told: { updated: Updated[]; findings: Finding[] } = { updated: [], findings: [] };
  try {
    const unversioned = wanted.length === 0 ? new Set<string>() : await typesWithoutVersions(session);
    const found: { readonly one: WantedResource; held: HeldResource }[] = [];
    for (const one of wanted) {
      const identifier = { system: options.resourceSystem, value: one.value };
      const held = heldIn(await lookFor(session, one.type, identifier), one, of, work, session);
      if (held === 'absent') continue;
      if (typeof held !== 'string') {
        found.push({ one, held });
        continue;
      }
      told.findings.push(finding('register.gone', '', { ...of, address: held }));
      await options.owed.forget(of, one);
    }
    const owners = new Owners(session, work.numbers);
    const assureOurs = async ({ device }: WantedResource, held: HeldResource) => {
      const about = found.find(other => other.one.type === 'Device' && other.one.value === device)?.held;
      const ownership = await owners.of(held, about);
      if (ownership === 'later') throw new Stopped({ came: 'later', reason: 'unavailable' });
      if (ownership === 'ours') return;
      if (typeof ownership === 'object') throw refused(of, ownership.address, ownership.refused);
      const address = addressOf(held);
      throw new Stopped(
        { came: 'held', reason: 'register.not-ours' },
        finding('register.not-ours', '', { ...of, address }),
      );
    };
    // Before anything is written of the case, all of it is looked at.
    for (const { one, held } of found)
      if (stepOf(held.resource, one).kind === 'write') await assureOurs(one, held);
    for (const { one, held } of found) {
      const mayWrite = options.withoutVersions || !unversioned.has(one.type);
      const updated = await bring(one, held, of, session, { ...options, mayWrite, assureOurs });
      if (typeof updated === 'string') {
        told.findings.push(finding('register.gone', '', { ...of, address: updated }));
        await options.owed.forget(of, one);
      } else if (updated) told.updated.push(updated);
    }
    return { ...told, came: 'done' };
  } catch (error) {
    if (!(error instanceof Stopped)) throw error;
    const { came } = error;
    return { ...came, updated: told.updated, findings: [...told.findings, ...came.findings] };
  }
}

const addressOf = ({ type, id }: HeldResource) => `${type}/${id}`;

/** Types of which a server says that it keeps no versions. Another release of FHIR than is set is not written to. */
async function typesWithoutVersions(session: Session): Promise<ReadonlySet<string>> {
  const seen = await capabilitiesOf(session);
  if (seen?.fhirVersion !== undefined && !speaks(seen, session.destination))
    throw new Stopped({ came: 'later', reason: 'other-version' });
  return new Set(
    [...(seen?.types ?? [])].flatMap(([type, { versioning }]) => (versioning === 'no-version' ? [type] : [])),
  );
}

/** What was found; its address where it is gone, or 'absent' where it never was there. */
function heldIn(
  look: Look,
  { type, value, change }: WantedResource,
  of: Pick<OwedCase, 'case' | 'destination'>,
  { acceptedAt }: OwedWork,
  { clock, destination }: Session,
): HeldResource | string {
  switch (look.kind) {
    case 'found':
      return look.held;
    case 'gone':
      return look.address;
    case 'absent': {
      const surelyFoundAt = (acceptedAt ?? 0) + destination.searchLagMs;
      if (clock() < surelyFoundAt)
        throw new Stopped({ came: 'later', reason: 'not-found-yet', notBefore: surelyFoundAt });
      return change ? `${type}?identifier=${value}` : 'absent';
    }
    case 'several':
      throw new Stopped(
        { came: 'held', reason: 'register.several-there' },
        finding('register.several-there', '', { ...of, addresses: { list: look.addresses } }),
      );
    case 'later':
      throw new Stopped({ came: 'later', reason: 'unavailable' });
    case 'refused':
      throw refused(of, type, look.status);
  }
}

const refused = (of: Pick<OwedCase, 'case' | 'destination'>, address: string, status: number) =>
  new Stopped(
    { came: 'held', reason: 'register.update-refused' },
    finding('register.update-refused', '', { ...of, address, status: `${status}` }),
  );

interface BringOptions extends UpdateOptions {
  readonly mayWrite: boolean;
  readonly assureOurs: (one: WantedResource, held: HeldResource) => Promise<void>;
}

/** Brings one resource to what is wanted. @returns its address where it is gone, undefined where nothing was to be done. */
async function bring(
  one: WantedResource,
  first: HeldResource,
  of: Pick<OwedCase, 'case' | 'destination'>,
  session: Session,
  { owed, mayWrite, withoutVersions, assureOurs }: BringOptions,
): Promise<Updated | string | undefined> {
  let held = first;
  let wanted = one;
  for (let tries = 0; tries < TRIES; tries += 1) {
    if (tries > 0) {
      const look = await readHeld(session, held.type, held.id);
      if (look.kind === 'gone') return look.address;
      if (look.kind !== 'found') throw new Stopped({ came: 'later', reason: 'unavailable' });
      held = look.held;
    }
    const address = addressOf(held);
    const step = stepOf(held.resource, wanted);
    if (step.kind === 'nothing') return undefined;
    if (step.kind === 'forget') {
      await owed.forget(of, one);
      return undefined;
    }
    if (tries > 0) await assureOurs(one, held);
    const hold = (code: 'register.no-versions' | 'register.not-whole') =>
      new Stopped({ came: 'held', reason: code }, finding(code, '', { ...of, address }));
    if (isPart(held)) throw hold('register.not-whole');
    if (!mayWrite || (held.tag === undefined && !withoutVersions)) throw hold('register.no-versions');
    if (step.change) {
      // Written down before a byte goes out: what was there before is not found out afterwards.
      await owed.remember(of, step.change);
      wanted = { ...wanted, change: step.change };
    }
    const written = await writeHeld(session, held, step.resource);
    if (written.kind === 'overtaken') continue;
    if (written.kind === 'refused') throw refused(of, address, written.status);
    if (written.kind === 'later') {
      const { reason, waitMs } = written;
      throw new Stopped({ came: 'later', reason, ...(waitMs !== undefined && { waitMs }) });
    }
    if (step.change) {
      // What stood there before the last change stands there no longer.
      if (step.change.after.length > 1)
        await owed.remember(of, { ...step.change, after: step.change.after.slice(-1) });
    } else await owed.forget(of, one);
    return { address, status: String(step.resource['status']) };
  }
  throw new Stopped({ came: 'later', reason: 'written-at-once' });
}
