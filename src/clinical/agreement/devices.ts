import { eventsMoving, rowsOf } from '../../devices/by-device.js';
import { isLocking } from '../../devices/tally/state.js';
import type { DeviceDetails, DeviceTally, TallyEntry } from '../../devices/types.js';
import { isInside, isOpen } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseEvent, CaseRecord } from '../../record/schema/record.js';

type Devices = ReadonlyMap<string, DeviceDetails>;

/** What stays and was never set free or locked, and what is to be done about devices that are not there. */
export function checkDevices(record: CaseRecord, devices: Devices, tally: DeviceTally): Finding[] {
  const staying = tally.entries.filter(
    ({ part, state, inserted }) =>
      part === undefined &&
      (state === 'in situ intended' || state === 'in situ temporary') &&
      inserted !== undefined,
  );
  return [
    ...staying.flatMap(entry => notDeployed(record, devices, entry)),
    ...staying.flatMap(entry => notLocked(record, devices, entry)),
    ...staying.flatMap(entry => notFilled(record, devices, entry)),
    ...staying.flatMap(entry => flushedBefore(record, devices, entry)),
    ...careOfGone(record, devices, tally),
  ];
}

const label = (device: DeviceDetails): Param => message('name.label', { key: device.key, name: device.said });

const eventsOf = (record: CaseRecord, key: string): readonly CaseEvent[] =>
  eventsMoving(record, key).map(({ event }) => event);

const words = (event: CaseEvent) => `${event.to ?? ''} ${event.result ?? ''} ${event.note ?? ''}`;

/** How a device that stays is set and fixed, in words. */
function wordsLeft(record: CaseRecord, key: string): string {
  const left = entriesOf(record.left).find(({ device }) => device === key);
  return `${left?.set ?? ''} ${left?.fixedBy ?? ''} ${left?.note ?? ''}`;
}

/** Stents that are pushed into place and set free by taking the pusher away; a record seldom says more. */
const pushed =
  /\b(?:double-J|JJ|ureteric|plastic|biodegradable|lacrimal|urethral|airway|endoprosthesis|tumour)\b/i;
/** Embolic devices that hang on a wire until they are let go. */
const hanging =
  /\b(?:detachable coil|vascular plug|intrasaccular device|septal occluder|detachable balloon)\b/i;
const freeing = new Set<CaseEvent['do']>(['deploy', 'release', 'detach', 'inflate', 'inject']);
const freed =
  /\b(?:deploy\w*|releas\w+|detach\w*|open(?:ed|s)?|expand\w*|set free|in place|placed|let go)\b/i;

function notDeployed(record: CaseRecord, devices: Devices, entry: TallyEntry): Finding[] {
  const device = devices.get(entry.device);
  if (!device || device.traits.has('ureteric')) return [];
  const name = device.row ?? device.kind;
  const needs =
    device.family === 'filter' ||
    (device.family === 'stent' && !pushed.test(name)) ||
    (device.family === 'embolic' && hanging.test(name));
  if (!needs) return [];
  const events = eventsOf(record, entry.device);
  // One that went in by being set free, or by an exchange, has nothing more to say.
  const inserted = events.some(event => event.do === 'insert' && event.part === undefined);
  if (!inserted || events.some(event => freeing.has(event.do) || freed.test(words(event)))) return [];
  return [finding('tally.not-deployed', `devices.${entry.device}`, { device: label(device) })];
}

function notLocked(record: CaseRecord, devices: Devices, entry: TallyEntry): Finding[] {
  const device = devices.get(entry.device);
  if (!device || !isLocking(device)) return [];
  const events = eventsOf(record, entry.device);
  if (
    events.some(
      event =>
        event.do === 'lock' ||
        /\block(?:ed|ing|s)?\b|\bloop (?:formed|closed|made|re-?formed)\b/i.test(words(event)),
    )
  )
    return [];
  if (/\block(?:ed)?\b/i.test(wordsLeft(record, entry.device))) return [];
  return [finding('tally.not-locked', `devices.${entry.device}`, { device: label(device) })];
}

function notFilled(record: CaseRecord, devices: Devices, entry: TallyEntry): Finding[] {
  const device = devices.get(entry.device);
  if (!device?.traits.has('balloon-held')) return [];
  const events = eventsOf(record, entry.device);
  const filled =
    /\bballoon (?:\w+ ){0,3}(?:with|of|filled|inflated|up|holds)\b|\b(?:filled|inflated) (?:the )?balloon\b|\binflated\b/i;
  return events.some(event => event.do === 'inflate' || filled.test(words(event))) ||
    filled.test(wordsLeft(record, entry.device))
    ? []
    : [finding('tally.not-filled', `devices.${entry.device}`, { device: label(device) })];
}

/** A line that stays was flushed or locked before it was in, and never after: the time of the flush is wrong. */
function flushedBefore(record: CaseRecord, devices: Devices, entry: TallyEntry): Finding[] {
  const device = devices.get(entry.device);
  const inserted = entry.inserted?.epoch;
  const flushes = eventsMoving(record, entry.device).filter(
    ({ event }) => event.device === entry.device && event.do === 'flush',
  );
  const [first] = flushes;
  if (!device || !first || inserted === undefined) return [];
  if (flushes.some(({ event }) => event.at.epoch >= inserted)) return [];
  return [
    finding('tally.flushed-before', `${first.path}.at`, {
      device: label(device),
      time: first.event.at.clock,
    }),
  ];
}

/** What is done where a device was, or with it before it goes. */
const place = /\b(?:site|wound|tract|hole|puncture|scar|after (?:its |the )?removal|stoma|dressing)\b/i;

function careOfGone(record: CaseRecord, devices: Devices, tally: DeviceTally): Finding[] {
  return (record.aftercare ?? []).flatMap((item, i) => {
    const device = item.device === undefined ? undefined : devices.get(item.device);
    if (!device || device.outside || place.test(item.do)) return [];
    const rows = rowsOf(tally, device.key);
    if (rows.length === 0 || rows.some(({ state }) => isInside(state) || isOpen(state))) return [];
    return [
      finding('clinical.aftercare-device-out', `aftercare[${i}].device`, {
        task: item.do,
        device: label(device),
      }),
    ];
  });
}
