import { rowsOf } from '../../devices/by-device.js';
import { isIncomplete, isOpen, type TallyEntry } from '../../devices/types.js';
import type { WordKey } from '../../findings/languages.js';
import type { DeviceEntry } from '../../record/schema/record.js';
import type { Printer } from '../print/printer.js';
import { absent, fact, facts, section, table } from './blocks.js';
import type { Block, Section } from './model.js';
import { whereaboutsTable } from './whereabouts.js';

/** States that no reader may miss. */
function isAlert({ state }: TallyEntry): boolean {
  return isIncomplete(state) || state === 'retained unintended' || isOpen(state);
}

/** `Removed, intact (09:08)`; without an event that made it so, the reason in words. */
function endState(p: Printer, entry: TallyEntry): string[] {
  const plain = p.say(`state.${entry.state}`);
  const timed = entry.event
    ? p.say('device.endOne', { state: plain, when: p.moment(entry.event.event.at) })
    : plain;
  const counted =
    entry.count > 1 ? p.say('device.endCount', { n: String(entry.count), state: timed }) : timed;
  const line =
    entry.part === undefined
      ? counted
      : p.say('device.endPart', { part: p.partKind(entry.device, entry.part), state: counted });
  return isAlert(entry) || !entry.event ? [line, p.text(entry.why)] : [line];
}

type Line = readonly [WordKey, string | undefined];

function lines(p: Printer, list: readonly Line[]): string[] {
  return list.flatMap(([key, value]) => (value === undefined ? [] : [p.say(key, { value })]));
}

function what(p: Printer, key: string, entry: DeviceEntry): (string | undefined)[] {
  const details = p.assessment.devices.get(key);
  return [
    p.device(key),
    details?.description ?? entry.description,
    ...lines(p, [
      ['device.written', writtenKind(p, key, entry)],
      ['device.family', entry.family && p.say(`family.${entry.family}`)],
      ['device.implant', entry.implant === undefined ? undefined : p.say(entry.implant ? 'yes' : 'no')],
      ['device.use', entry.use && p.say(`use.${entry.use}`)],
    ]),
    entry.carried &&
      (entry.carried.date
        ? p.say('device.carriedOn', { value: p.when(entry.carried.date) })
        : p.say('device.carried')),
    ...Object.keys(entry.parts ?? {}).map(part =>
      p.say('device.part', { value: partLine(p, key, part, entry) }),
    ),
    entry.note,
  ];
}

/** A kind as it was written, where the reader's language has it under the name of its row, which may say less. */
function writtenKind(p: Printer, key: string, { kind }: DeviceEntry): string | undefined {
  const row = p.assessment.devices.get(key)?.row;
  const other = row !== undefined && row !== kind.toLowerCase();
  return other && p.kind(kind, row) !== kind ? kind : undefined;
}

function partLine(p: Printer, key: string, part: string, entry: DeviceEntry): string {
  const { count, length } = entry.parts?.[part] ?? {};
  const kind = p.partKind(key, part);
  const counted = count === undefined ? kind : p.say('device.partCount', { part: kind, n: String(count) });
  return length ? p.say('device.partLength', { part: counted, length: p.quantity(length) }) : counted;
}

function make(p: Printer, key: string, entry: DeviceEntry): (string | undefined)[] {
  const details = p.assessment.devices.get(key);
  const size = details?.size ?? entry.size;
  return [
    details?.maker ?? entry.maker,
    ...lines(p, [
      ['device.model', details?.model ?? entry.model],
      ['device.reference', details?.reference ?? entry.reference],
      ['device.size', size && p.size(size)],
      ['device.diameter', entry.diameter && p.quantity(entry.diameter)],
      ['device.length', entry.length && p.quantity(entry.length)],
      ['device.takesWire', entry.takesWire && p.quantity(entry.takesWire)],
      ['device.takes', entry.takes && p.quantity(entry.takes)],
      ['device.ratedPressure', entry.ratedPressure && p.quantity(entry.ratedPressure)],
      ['device.material', entry.material],
      ['device.concentration', entry.concentration],
      ['device.count', entry.count === undefined ? undefined : String(entry.count)],
      ['device.mri', details?.mri ?? entry.mri],
    ]),
  ];
}

/** Printed as ISO dates, as on the package, so that label and report can be laid side by side. */
function identifiers(p: Printer, key: string, entry: DeviceEntry): string[] {
  const details = p.assessment.devices.get(key);
  return lines(p, [
    ['device.di', details?.di ?? entry.udi],
    ['device.lot', details?.lot ?? entry.lot],
    ['device.serial', details?.serial ?? entry.serial],
    ['device.expires', details?.expires ?? entry.expires?.iso],
    ['device.manufactured', details?.manufactured ?? entry.manufactured?.iso],
    ['device.distinct', details?.distinct],
    ['device.identifier', entry.identifier?.value],
    ['device.label', entry.label],
  ]);
}

function deviceTable(p: Printer): Block {
  const list = Object.entries(p.record.devices ?? {});
  if (list.length === 0) return facts(p, undefined, [fact(p, 'devices', absent(p, true))]);
  return table(
    p,
    'table.devices',
    ['device', 'make', 'identifiers', 'endState'],
    list.map(([key, entry]) => {
      const tally = rowsOf(p.assessment.tally, key);
      return {
        key: `devices.${key}`,
        cells: [
          what(p, key, entry),
          make(p, key, entry),
          identifiers(p, key, entry),
          tally.flatMap(row => endState(p, row)),
        ],
        alert: tally.some(isAlert),
      };
    }),
    true,
  );
}

export function devicesSection(p: Printer): Section {
  return section(p, 'devices', [deviceTable(p), ...whereaboutsTable(p)]);
}
