import type { Annotation, Coding, Device, DeviceDeviceName } from 'fhir/r4.js';
import type { DeviceDetails } from '../../devices/types.js';
import { say } from '../../findings/say.js';
import { concept } from '../concept.js';
import { deviceConcept } from '../concepts.js';
import type { MappingContext } from '../context.js';
import { IPS } from '../profiles.js';
import { countOf, quantityOf } from '../quantity.js';
import { type DeviceState, stateOf } from '../states.js';
import { present, some } from '../tidy.js';
import { propertiesOf } from './device-property.js';
import { udiCarrierOf } from './udi.js';

/** One Device for each device of the record, and one for each of its parts. */
export function addDevices(context: MappingContext): void {
  for (const details of context.assessment.devices.values()) {
    addDevice(context, details);
    for (const [part, entry] of Object.entries(details.entry.parts ?? {}))
      addPart(context, details, part, entry);
  }
}

/** Role of a device's, or a part's, Device. */
export function deviceRole(key: string, part?: string): string {
  return part === undefined ? `device/${key}` : `device/${key}/${part}`;
}

function addDevice(context: MappingContext, details: DeviceDetails): void {
  const { key, entry } = details;
  const from = `devices.${key}`;
  const state = stateOf(context, key);
  const codes: Coding[] = (entry.codes ?? []).map(code => ({ ...code }));
  const type = deviceConcept(context.options, details);
  const udi = udiCarrierOf(details, context.options);
  const resource: Device = {
    resourceType: 'Device',
    ...(isOfPatient(state) && { meta: { profile: [IPS.device] } }),
    // The key of the case's line, never identifier and lot: two alike stay two.
    identifier: [context.identifier(deviceRole(key)), ...(entry.identifier ? [entry.identifier] : [])],
    udiCarrier: udi && [udi],
    status: status(state),
    distinctIdentifier: details.distinct,
    manufacturer: details.maker,
    manufactureDate: details.manufactured,
    expirationDate: details.expires,
    lotNumber: details.lot,
    serialNumber: details.serial,
    deviceName: names(details),
    modelNumber: details.model,
    partNumber: details.reference,
    type: codes.length === 0 ? type : { ...type, coding: [...codes, ...otherSystems(type.coding, codes)] },
    property: some(propertiesOf(details)),
    patient: isOfPatient(state) ? context.ref('patient') : undefined,
    safety: details.mri === undefined ? undefined : [{ text: details.mri }],
    note: some(notes(details, state)),
  };
  context.add(deviceRole(key), resource, {
    from,
    sources: {
      udiCarrier: entry.label ? `${from}.label` : entry.udi && `${from}.udi`,
      lotNumber: details.lot && (entry.lot ? `${from}.lot` : `${from}.label`),
      serialNumber: details.serial && (entry.serial ? `${from}.serial` : `${from}.label`),
      expirationDate: details.expires && (entry.expires ? `${from}.expires` : `${from}.label`),
      manufactureDate:
        details.manufactured && (entry.manufactured ? `${from}.manufactured` : `${from}.label`),
      distinctIdentifier: details.distinct && `${from}.label`,
      type: `${from}.kind`,
      note: `${from}.note`,
    },
    summary: present(details.name, udi?.carrierHRF, ...ends(state)),
    section: 'devices',
  });
}

const otherSystems = (coding: readonly Coding[] | undefined, codes: readonly Coding[]) =>
  (coding ?? []).filter(item => !codes.some(code => code.system === item.system));

/** Affixed to the patient, then or now, or not known to be out. A tool that left the room is no device of the patient's. */
const isOfPatient = ({ inside, unaccounted, carried }: DeviceState) => inside || unaccounted || carried;

/** R4's Device.status says whether the device is in use, never that it is implanted. */
function status(state: DeviceState): Device['status'] {
  return state.unaccounted ? 'unknown' : state.inside ? 'active' : 'inactive';
}

/** End state and reason, as notes: R4's reasons for a device status are about switched-on equipment. */
export function ends(state: DeviceState): string[] {
  return state.rows.map(row => `${row.state}${row.count === 1 ? '' : ` (${row.count})`}: ${say(row.why)}`);
}

function names(details: DeviceDetails): DeviceDeviceName[] {
  return [
    { name: details.name, type: 'user-friendly-name' },
    ...(details.model === undefined ? [] : [{ name: details.model, type: 'model-name' as const }]),
  ];
}

function notes(details: DeviceDetails, state: DeviceState): Annotation[] {
  const { entry, label } = details;
  return present(
    ...ends(state),
    details.description,
    entry.use === undefined || entry.use === 'used' ? undefined : `Use: ${entry.use}`,
    entry.label !== undefined && !label?.issuer ? `Label as read: ${entry.label}` : undefined,
    entry.carried?.note,
    entry.note,
  ).map(text => ({ text }));
}

function addPart(
  context: MappingContext,
  details: DeviceDetails,
  part: string,
  entry: NonNullable<DeviceDetails['entry']['parts']>[string],
): void {
  const state = stateOf(context, details.key, part);
  const role = deviceRole(details.key, part);
  const resource: Device = {
    resourceType: 'Device',
    ...(isOfPatient(state) && { meta: { profile: [IPS.device] } }),
    identifier: [context.identifier(role)],
    status: status(state),
    deviceName: [{ name: `${entry.kind} of ${details.name}`, type: 'user-friendly-name' }],
    type: concept(context.options, entry.kind, undefined, 'device'),
    property: some([
      ...(entry.length ? [{ type: { text: 'Length' }, valueQuantity: [quantityOf(entry.length)] }] : []),
      ...(entry.count === undefined
        ? []
        : [{ type: { text: 'Number alike' }, valueQuantity: [countOf(entry.count)] }]),
    ]),
    patient: isOfPatient(state) ? context.ref('patient') : undefined,
    parent: context.ref(deviceRole(details.key), details.name),
    note: some(ends(state).map(text => ({ text }))),
  };
  context.add(role, resource, {
    from: `devices.${details.key}.parts.${part}`,
    summary: present(`${entry.kind} of ${details.name}`, ...ends(state)),
    section: 'devices',
  });
}
