import type { ExactObject } from '../../../delivery/answer/exact-json.js';
import { objectAt, textAt } from '../../../delivery/answer/exact-json.js';
import type { Fields } from '../../../delivery/change/fields.js';
import type { Destination } from '../../../delivery/destination/destination.js';
import { caseUuid } from '../../../fhir/ids.js';
import { itemRole } from '../../../fhir/resources/aftercare-item.js';
import { taskRole } from '../../../fhir/resources/aftercare-task.js';
import { deviceRole } from '../../../fhir/resources/device.js';
import { useRole } from '../../../fhir/resources/device-use.js';
import type { Change, OwedWork } from '../../../register/store/owed.js';
import type { Closing } from '../../../register/wanted.js';

/** A resource of a case that is to be looked at. */
export interface WantedResource {
  /** In the destination's release of FHIR. */
  readonly type: string;
  /** Value of the identifier that Casetally gave it. */
  readonly value: string;
  /** What it is to say instead; undefined where it says nothing that is open. Absent where nothing is wanted of it. */
  readonly closed?: (resource: ExactObject) => Fields | undefined;
  /** What was changed in it before. */
  readonly change?: Change;
  /** Value of the identifier of the Device that it is about. */
  readonly device?: string;
}

/** The resources that what is owed is about: those that later cases close, and those that were closed before. */
export function wantedResources(
  name: string,
  { closings, changes }: Pick<OwedWork, 'closings' | 'changes'>,
  namespace: string,
  { fhirVersion }: Pick<Destination, 'fhirVersion'>,
): WantedResource[] {
  const value = (role: string) => caseUuid(namespace, name, role);
  const wanted = new Map<string, WantedResource>();
  const add = (one: WantedResource) => wanted.set(`${one.type} ${one.value}`, one);
  for (const change of changes) add({ type: change.type, value: change.value, change });
  const use = fhirVersion === '5.0.0' ? 'DeviceUsage' : 'DeviceUseStatement';
  for (const closing of closings)
    for (const { type, role, about } of rolesOf(closing, use)) {
      const { change } = wanted.get(`${type} ${value(role)}`) ?? {};
      add({
        type,
        value: value(role),
        closed: resource => closedFields(type, resource, closing),
        ...(change && { change }),
        ...(about !== undefined && { device: value(about) }),
      });
    }
  return [...wanted.values()];
}

function rolesOf(
  closing: Closing,
  use: string,
): { readonly type: string; readonly role: string; readonly about?: string }[] {
  if (closing.kind === 'plan')
    return [
      { type: 'ServiceRequest', role: itemRole(closing) },
      { type: 'Task', role: taskRole(closing) },
    ];
  const { device, part } = closing;
  const about = deviceRole(device, part);
  return [
    { type: 'Device', role: about },
    { type: use, role: useRole(device, part), about },
  ];
}

/** The states in which something is still open; from any other, nothing is changed: whoever set it has decided. */
const OPEN: Readonly<Record<string, readonly string[]>> = {
  Device: ['active', 'unknown'],
  DeviceUseStatement: ['active', 'intended', 'on-hold'],
  DeviceUsage: ['active', 'intended', 'on-hold'],
  Task: ['draft', 'requested', 'received', 'accepted', 'ready', 'in-progress', 'on-hold'],
  ServiceRequest: ['draft', 'active', 'on-hold'],
};

function closedFields(type: string, resource: ExactObject, closing: Closing): Fields | undefined {
  if (!OPEN[type]?.includes(textAt(resource, 'status') ?? '')) return undefined;
  if (closing.kind === 'plan') {
    const over = type === 'Task' ? 'cancelled' : 'revoked';
    return { status: closing.how === 'done' ? 'completed' : over };
  }
  if (type === 'Device') return { status: 'inactive' };
  const period = objectAt(resource, 'timingPeriod');
  const { on } = closing;
  const begun = textAt(period, 'start')?.slice(0, on?.length) ?? '';
  // A use that is told with one day, on which it was seen, keeps that; and no period ends before it begins.
  if (!period || on === undefined || begun > on) return { status: 'completed' };
  return { status: 'completed', 'timingPeriod.end': on };
}
