import { rowsOf } from '../../devices/by-device.js';
import { type DeviceTally, isIncomplete, isOpen, type TallyEntry } from '../../devices/types.js';
import type { MissingEntry } from '../../record/schema/record.js';
import type { Printer } from '../print/printer.js';
import { table } from './blocks.js';
import type { Block, InsideItem } from './model.js';

/** Something of which nobody knows whether it is inside: nothing says what became of it, or it cannot be found. */
interface Whereabouts {
  readonly key: string;
  readonly name: string;
  readonly missing?: MissingEntry;
}

/** What is missing, as the record lists it, then what nothing accounts for. */
function whereaboutsOf(p: Printer): Whereabouts[] {
  const { tally } = p.assessment;
  const { entries } = tally;
  const many = (name: string, n: number) => (n > 1 ? p.say('name.count', { name, n: String(n) }) : name);
  const missing = (p.record.missing ?? []).map((entry, index): Whereabouts => {
    const { device, part } = entry;
    const whole = rowsOf(tally, device).some(row => row.part === part && row.state === 'missing');
    const n = entry.count ?? entries.find(row => row.missing?.index === index)?.count ?? 1;
    const name = whole || part !== undefined ? p.piece(device, part) : pieceOf(p, device);
    return { key: `missing[${index}]`, name: many(name, n), missing: entry };
  });
  const open = entries.flatMap((row): Whereabouts[] => {
    const { device, part, state, count } = row;
    const key = part === undefined ? device : `${device}.${part}`;
    if (state === 'unaccounted' && !goesWith(row, tally))
      return [{ key, name: many(p.piece(device, part), count) }];
    const unsaid = isIncomplete(state) && isUnexplained(p, row);
    return unsaid ? [{ key, name: pieceOf(p, device) }] : [];
  });
  return [...missing, ...open];
}

const pieceOf = (p: Printer, device: string) => p.say('name.piece', { device: p.device(device) });

/** A part of something unaccounted for is told with it. */
const goesWith = ({ device, part }: TallyEntry, tally: DeviceTally) =>
  part !== undefined &&
  rowsOf(tally, device).some(other => other.part === undefined && other.state === 'unaccounted');

/** True where a part of it is missing and no part, and no line of the record, says which and where. */
function isUnexplained({ record, assessment }: Printer, { device }: TallyEntry): boolean {
  const parts = rowsOf(assessment.tally, device).filter(row => row.part !== undefined);
  const told = parts.some(
    ({ state }) => isOpen(state) || state === 'retained unintended' || state.startsWith('in situ'),
  );
  return !told && !(record.missing ?? []).some(entry => entry.device === device);
}

/** What was done to find it, a line each. */
function search(p: Printer, { searched, by, imaging, result, told, at }: MissingEntry): string[] {
  return [
    p.say('missing.searched', { value: searched }),
    ...(by === undefined ? [] : [p.say('missing.by', { value: p.person(by) })]),
    ...(at === undefined ? [] : [p.say('missing.at', { value: p.when(at) })]),
    p.say('missing.imaging', { value: imaging }),
    ...(result === undefined ? [] : [p.say('missing.result', { value: result })]),
    p.say('missing.told', { value: told }),
  ];
}

/** One entry each, with its own sentence: never told as left inside. */
export function whereaboutsItems(p: Printer): InsideItem[] {
  return whereaboutsOf(p).map(({ key, name, missing }) => ({
    key,
    name,
    state: p.say(missing ? 'state.missing' : 'state.unaccounted'),
    alert: true,
    lines: [
      p.say(missing ? 'whereabouts.missing' : 'whereabouts.unaccounted'),
      ...(missing ? search(p, missing) : []),
    ],
  }));
}

/** The same as a table; nothing where all is accounted for. */
export function whereaboutsTable(p: Printer): Block[] {
  const items = whereaboutsItems(p);
  if (items.length === 0) return [];
  const rows = items.map(({ key, name, state, lines }) => ({
    key,
    cells: [[name, state], lines],
    alert: true,
  }));
  return [table(p, 'section.whereabouts', ['device', 'found'], rows)];
}

/** `NOT ACCOUNTED FOR: 0.035 in guidewire, 145 cm. …`, and the like for what cannot be found. */
export function whereaboutsNotices(p: Printer): string[] {
  const all = whereaboutsOf(p);
  const named = (list: readonly Whereabouts[]) => p.list(list.map(({ name }) => name));
  const missing = all.filter(one => one.missing);
  const open = all.filter(one => !one.missing);
  return [
    ...(open.length > 0 ? [p.say('notice.unaccounted', { list: named(open) })] : []),
    ...(missing.length > 0 ? [p.say('notice.missing', { list: named(missing) })] : []),
  ];
}
