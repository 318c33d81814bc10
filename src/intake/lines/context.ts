import { playEvents } from '../../devices/tally/play.js';
import type { DeviceDetails } from '../../devices/types.js';
import { printQuantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { LineContext, ListedDevice } from './types.js';

/**
 * What lines are read against: the devices of a record, where its events have left them, its targets and its clock.
 * @param details as `describeDevices` gives them
 * @param timeZone of the site, for a record without one
 */
export function lineContextOf(
  record: CaseRecord,
  details: ReadonlyMap<string, DeviceDetails>,
  timeZone?: string,
): LineContext {
  const { states } = playEvents(record, details);
  const devices = [...details.values()].map((device): ListedDevice => {
    const { key, kind, family, size, diameter, length, description, count, entry } = device;
    const state = states.get(key);
    return {
      ...{ key, kind, family, count },
      ...(size && { size: size.text }),
      ...(diameter && { diameter: printQuantity(diameter) }),
      ...(length && { length: printQuantity(length) }),
      ...(description !== undefined && { description }),
      inside: state?.inside ?? 0,
      used: (state?.inside ?? 0) > 0 || (state?.out ?? 0) > 0,
      parts: Object.fromEntries(Object.entries(entry.parts ?? {}).map(([part, { kind: of }]) => [part, of])),
    };
  });
  const targets = Object.entries(record.targets ?? {}).map(([key, { what, lesion }]): [string, string[]] => [
    key,
    [what.text, ...(lesion ? [lesion.text] : [])],
  ]);
  const { date, started } = record.case;
  const zone = record.case.timeZone ?? timeZone;
  return {
    devices,
    targets: Object.fromEntries(targets),
    // Without a zone no time can be held against the clocks: the check of the record says so, once.
    ...(zone !== undefined && {
      time: { date, timeZone: zone, ...(started && { started: started.text }) },
    }),
  };
}
