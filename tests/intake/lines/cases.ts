import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { kindNamed } from '../../../src/devices/kinds.js';
import { readLines } from '../../../src/intake/lines/read.js';
import type { LineReading, ListedDevice, ProposedEvent } from '../../../src/intake/lines/types.js';
import { convert, readQuantity } from '../../../src/record/quantity.js';
import { unitOfCode, units } from '../../../src/record/units.js';
import { wordsOf } from '../../../src/trade/words.js';

type Row = Readonly<Record<string, unknown>>;

/** A line and what a careful colleague would write down. */
interface Said {
  readonly say: string;
  readonly events?: readonly Row[];
  readonly drugs?: readonly Row[];
  readonly new?: Readonly<Record<string, Row>>;
  readonly uncertain?: boolean;
}

interface Table {
  readonly devices?: Readonly<Record<string, Row>> | null;
  readonly in?: readonly string[];
  readonly lines: readonly Said[];
}

export interface Judged {
  readonly said: Said;
  readonly reading: LineReading;
  /** What differs; empty when every event and drug is right. */
  readonly wrong: readonly string[];
  readonly events: number;
  readonly right: number;
}

const text = (value: unknown) => (value === undefined || value === null ? undefined : String(value));

function listed(key: string, row: Row, inside: boolean): ListedDevice {
  const given = (name: string) => {
    const value = text(row[name]);
    return value === undefined ? {} : { [name]: value };
  };
  const parts = row['parts'] as Readonly<Record<string, { kind: string }>> | undefined;
  return {
    key,
    kind: String(row['kind']),
    ...given('size'),
    ...given('diameter'),
    ...given('length'),
    ...given('description'),
    ...(row['count'] !== undefined && { count: Number(row['count']) }),
    ...(parts && {
      parts: Object.fromEntries(Object.entries(parts).map(([part, { kind }]) => [part, kind])),
    }),
    inside: inside ? 1 : 0,
  };
}

const all = [...new Set(units.map(({ dimension }) => dimension))];

/** Whether two amounts are the same, whatever their units: 1 min is 60 s. */
function sameAmount(a: unknown, b: unknown): boolean {
  if (a === undefined || b === undefined) return a === b;
  const [one, other] = [readQuantity(String(a), all), readQuantity(String(b), all)];
  if (!one.ok || !other.ok) return String(a) === String(b);
  if (one.value.code === other.value.code) return Number(one.value.value) === Number(other.value.value);
  const same = unitOfCode(one.value.code)?.dimension === unitOfCode(other.value.code)?.dimension;
  return same && convert(one.value, other.value.code)?.toNumber() === Number(other.value.value);
}

const bare = (value: unknown) =>
  value === undefined
    ? undefined
    : String(value)
        .toLowerCase()
        .replace(/\b(?:the|a|an) /g, '')
        .trim();

/** Events that the same person would call the same. */
function differences(wanted: Row, event: ProposedEvent, keys: ReadonlyMap<string, string>): string[] {
  const got = event as unknown as Row;
  const key = (value: unknown) =>
    value === undefined ? undefined : (keys.get(String(value)) ?? String(value));
  const out: string[] = [];
  const differ = (name: string, same: boolean) => {
    if (!same) out.push(`${name}: wanted ${String(wanted[name])}, got ${String(got[name])}`);
  };
  for (const name of ['do', 'at', 'part', 'state']) differ(name, text(wanted[name]) === text(got[name]));
  for (const name of ['device', 'over', 'through', 'replaces']) differ(name, key(wanted[name]) === got[name]);
  for (const name of ['into', 'across']) differ(name, bare(wanted[name]) === bare(got[name]));
  for (const name of ['pressure', 'duration', 'volume', 'diameter', 'depth'])
    differ(name, sameAmount(wanted[name], got[name]));
  differ('count', Number(wanted['count'] ?? 1) === Number(got['count'] ?? 1));
  if (wanted['agent'] !== undefined)
    differ(
      'agent',
      wordsOf(String(wanted['agent'])).some(word => wordsOf(String(got['agent'] ?? '')).includes(word)),
    );
  for (const name of ['to', 'fixedBy'])
    if (wanted[name] !== undefined)
      differ(
        name,
        wordsOf(String(wanted[name])).some(word => wordsOf(String(got[name] ?? '')).includes(word)),
      );
  return out;
}

/** Keys that the file gives to new devices, and those that were proposed for them, by kind and order. */
function match(
  wanted: Readonly<Record<string, Row>>,
  reading: LineReading,
  keys: Map<string, string>,
): string[] {
  const open = new Map(Object.entries(reading.devices));
  return Object.entries(wanted).flatMap(([key, row]) => {
    const kind = kindNamed(String(row['kind']))?.row;
    const size = text(row['size'] ?? row['diameter']);
    const found = [...open].find(([, device]) => {
      const own = kindNamed(device.kind)?.row;
      const measure = device.size ?? device.diameter;
      return (
        own?.family === kind?.family && (size === undefined || sameAmount(size, measure) || size === measure)
      );
    });
    if (!found) return [`new ${key}: not proposed`];
    open.delete(found[0]);
    keys.set(key, found[0]);
    return [];
  });
}

const sameDrug = (wanted: Row, got: Row) =>
  bare(wanted['drug']) === bare(got['drug']) &&
  text(wanted['at']) === text(got['at']) &&
  sameAmount(wanted['dose'], got['dose']) &&
  (wanted['route'] === undefined || wanted['route'] === got['route']);

/** Reads the lines of a file as they follow one another, and holds each against what it should be. */
export function judged(file: string): Judged[] {
  const tables = parse(readFileSync(file, 'utf8')) as readonly Table[];
  return tables.flatMap(table => {
    const inside = new Set(table.in ?? []);
    const devices = Object.entries(table.devices ?? {}).map(([key, row]) =>
      listed(key, row, inside.has(key)),
    );
    const { readings } = readLines(
      table.lines.map(({ say }) => say),
      { devices },
    );
    const keys = new Map<string, string>();
    return readings.map((reading, index): Judged => {
      const said = table.lines[index] as Said;
      const wanted = said.events ?? [];
      const wrong = match(said.new ?? {}, reading, keys);
      const each = wanted.map((row, place) => {
        const event = reading.events[place];
        return event ? differences(row, event, keys) : ['no event'];
      });
      wrong.push(...each.flat());
      if (reading.events.length > wanted.length)
        wrong.push(`${reading.events.length - wanted.length} events too many`);
      for (const [place, row] of (said.drugs ?? []).entries()) {
        const drug = reading.drugs[place];
        if (!drug || !sameDrug(row, drug as unknown as Row)) wrong.push(`drug ${String(row['drug'])}`);
      }
      if (reading.drugs.length > (said.drugs ?? []).length) wrong.push('drugs too many');
      return {
        said,
        reading,
        wrong,
        events: wanted.length,
        right: each.filter(one => one.length === 0).length,
      };
    });
  });
}
