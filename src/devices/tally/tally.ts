import { type Finding, finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { withNightRemedy } from '../../record/sense.js';
import { partNamed } from '../parts.js';
import type { DeviceDetails, DeviceTally } from '../types.js';
import { closeDevice } from './close.js';
import { type LeftLines, leftLines, named } from './left.js';
import { playEvents } from './play.js';
import type { DeviceState } from './state.js';

/**
 * Accounts for every device and every part of one: plays the events in the order of their times and holds the end
 * against what the record says was left. Whatever cannot have been, and whatever is not said, is a finding.
 * @param devices from `deviceDetails`
 */
export function tallyDevices(record: CaseRecord, devices: ReadonlyMap<string, DeviceDetails>): DeviceTally {
  const play = playEvents(record, devices);
  const left = leftLines(record);
  const closed = [...play.states.values()].map(state => closeDevice(record, state, left));
  return {
    entries: closed.flatMap(c => c.entries),
    findings: [
      ...play.findings,
      ...closed.flatMap(c => c.findings),
      ...left.findings,
      ...left.missing.findings(({ device, part }) => calledIn(play.states, device, part)),
      ...leftButGone(left, play.states),
    ].map(f => withNightRemedy(record, f)),
  };
}

/** What a device, or a part of one, is called. */
function calledIn(states: ReadonlyMap<string, DeviceState>, device: string, part: string | undefined): Param {
  const state = states.get(device);
  const name: Param = state?.details.called ?? device;
  return part === undefined
    ? name
    : message('name.part', { part: partNamed(state?.parts.get(part)?.kind ?? part), device: name });
}

/** What was never opened, or has parts that only placing it brings in, is not from an earlier case. */
const canBeCarried = ({ details: { entry }, parts }: DeviceState) =>
  (entry.use ?? 'used') === 'used' && parts.size === 0;
const NOT_CARRIED = { remedy: message('answer.notCarried') };

/** Lines of `left` about what the events took out, or never put in. */
function leftButGone(left: LeftLines, states: ReadonlyMap<string, DeviceState>): Finding[] {
  return left.all.flatMap(line => {
    const state = states.get(line.entry.device);
    if (!state) return [];
    const part = [...state.parts.values()].find(({ key }) => key === line.entry.part);
    if (line.entry.part !== undefined && !part) return [];
    const entered = state.inside > 0 || state.out > 0;
    const there = part ? entered && part.count > part.out : state.inside > 0;
    if (there) return [];
    const what = part ? named(line) : state.label;
    const { went } = part ?? state;
    return [
      went
        ? finding('tally.left-removed', line.path, { what, time: went.by.event.at.clock })
        : finding('tally.left-never-in', line.path, { what }, canBeCarried(state) ? {} : NOT_CARRIED),
    ];
  });
}
