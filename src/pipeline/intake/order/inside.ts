import { type ExactObject, listAt, objectAt, textAt } from '../../../delivery/answer/exact-json.js';
import { type Finding, finding } from '../../../findings/finding.js';
import type { GivenValue, Typed } from '../../../intake/contribution.js';
import { deviceKey } from '../../../intake/device-key.js';
import { conceptAt, isVoid, numbersAt, referenceTo, timeAt, wordsOf } from './resource.js';
import type { Taken } from './taken.js';

const ENDED = ['completed', 'entered-in-error', 'stopped', 'intended'];

/**
 * Devices that the record system has as still in use come in as carried from before. What a use of an earlier case is
 * called stays with it, so that the register and the destination know it again.
 */
export function insideValues(uses: readonly ExactObject[], devices: ReadonlyMap<string, ExactObject>): Taken {
  const values: GivenValue[] = [];
  const findings: Finding[] = [];
  const seen = new Set<string>();
  const keys = new Set<string>();
  for (const use of uses) {
    const reference = referenceTo(use, 'device', 'Device');
    const device = reference === undefined ? undefined : devices.get(reference);
    const period = objectAt(use, 'timingPeriod');
    const isOver = ENDED.includes(textAt(use, 'status') ?? '') || textAt(period, 'end') !== undefined;
    if (isOver || (reference !== undefined && seen.has(reference))) continue;
    if (device && (isVoid(device) || textAt(device, 'status') === 'inactive')) continue;
    if (reference !== undefined) seen.add(reference);
    const kind = device && (conceptAt(device, 'type') ?? textAt(listAt(device, 'deviceName')[0], 'name'));
    if (!device || kind === undefined) {
      findings.push(
        finding('intake.not-taken', 'devices', {
          what: 'DeviceUseStatement',
          count: '1',
          why: 'no device that can be read',
        }),
      );
      continue;
    }
    const date = timeAt(period, 'start') ?? timeAt(use, 'timingDateTime') ?? timeAt(use, 'recordedOn');
    const site = wordsOf(objectAt(use, 'bodySite'));
    const label = textAt(listAt(device, 'udiCarrier')[0], 'carrierHRF');
    const [udi] = listAt(device, 'udiCarrier').flatMap(carrier => textAt(carrier, 'deviceIdentifier') ?? []);
    const [number] = numbersAt(device).filter(({ system }) => system !== undefined);
    const fields: Readonly<Record<string, Typed | undefined>> = {
      kind,
      maker: textAt(device, 'manufacturer'),
      reference: textAt(device, 'modelNumber'),
      label,
      ...(label === undefined && {
        udi,
        lot: textAt(device, 'lotNumber'),
        serial: textAt(device, 'serialNumber'),
        expires: timeAt(device, 'expirationDate')?.slice(0, 10),
      }),
      identifier: number && { system: number.system ?? '', value: number.value },
      carried: {
        ...(date !== undefined && { date: date.slice(0, 10) }),
        ...(site !== undefined && { site }),
      },
    };
    const key = deviceKey(kind, keys, 'earlier');
    for (const [name, value] of Object.entries(fields))
      if (value !== undefined && value !== '')
        values.push({ path: ['devices', key, name], value, as: 'set' });
  }
  return { values, findings };
}
