import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { kindNamed } from '../../../src/devices/kinds.js';
import { readLines } from '../../../src/intake/lines/read.js';
import type { LineReading, ListedDevice, ProposedEvent } from '../../../src/intake/lines/types.js';
import { convert, readQuantity } from '../../../src/record/quantity.js';
import { unitOfCode, units } from '../../../src/record/units.js';
import { drugTable } from '../../../src/trade/drugs/table.js';
import { wordsOf } from '../../../src/trade/words.js';

type Row = Readonly<Record<string, unknown>>;

/** A line and what a careful colleague would write down. */
interface Said {
  readonly say: string;
  readonly events?: readonly Row[];
  readonly drugs?: readonly Row[];
  /** By its key, or one alone, whose key is `new`. */
  readonly new?: Row;
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

/** Short names of places: `into` is what was said, and both are the same place. From memory. */
const placeNames: Readonly<Record<string, string>> = {
  ij: 'internal jugular vein',
  ijv: 'internal jugular vein',
  'internal jugular': 'internal jugular vein',
  cfa: 'common femoral artery',
  gda: 'gastroduodenal artery',
  gastroduodenal: 'gastroduodenal artery',
  coeliac: 'coeliac trunk',
  sma: 'superior mesenteric artery',
  ivc: 'inferior vena cava',
  svc: 'superior vena cava',
};

const place = (value: unknown): string | undefined => {
  const text = bare(value);
  if (text === undefined) return undefined;
  const [name, full] = Object.entries(placeNames).find(([one]) => new RegExp(`\\b${one}$`).test(text)) ?? [];
  const long = name && full && !text.endsWith(full) ? text.slice(0, -name.length) + full : text;
  return long.replace(/\bsegment six\b/, 'segment 6');
};

const bare = (value: unknown) =>
  value === undefined
    ? undefined
    : String(value)
        .toLowerCase()
        .replace(/\b(?:the|a|an) /g, '')
        .trim();

/**
 * Where two verbs say the same of a record, that of the reading is taken for the one wanted: a wire or catheter that
 * comes in across a lesion (`insert` with `across`) has crossed it; a needle that comes into tissue has punctured it;
 * an `attempt` with `crossed: no` is a `cross` with `crossed: no`.
 */
function sameVerb(wanted: Row, got: Row, families: ReadonlyMap<string, string | undefined>): boolean {
  if (wanted['do'] === got['do']) return true;
  const family = families.get(String(got['device']));
  const verbs = [wanted['do'], got['do']];
  const failed = wanted['crossed'] === 'no' && got['crossed'] === 'no';
  if (verbs.includes('cross') && verbs.includes('attempt')) return failed;
  if (verbs.includes('cross') && (verbs.includes('insert') || verbs.includes('advance')))
    return !failed && got['across'] !== undefined && (family === 'guidewire' || family === 'catheter');
  return (
    verbs.includes('puncture') && verbs.includes('insert') && family === 'needle' && got['into'] !== undefined
  );
}

/** Events that the same person would call the same. */
function differences(
  wanted: Row,
  event: ProposedEvent,
  keys: ReadonlyMap<string, string>,
  families: ReadonlyMap<string, string | undefined>,
): string[] {
  const got = event as unknown as Row;
  const key = (value: unknown) =>
    value === undefined ? undefined : (keys.get(String(value)) ?? String(value));
  const out: string[] = [];
  const differ = (name: string, same: boolean) => {
    if (!same) out.push(`${name}: wanted ${String(wanted[name])}, got ${String(got[name])}`);
  };
  differ('do', sameVerb(wanted, got, families));
  differ('crossed', wanted['crossed'] !== 'no' || got['crossed'] === 'no');
  for (const name of ['at', 'part', 'state']) differ(name, text(wanted[name]) === text(got[name]));
  for (const name of ['device', 'over', 'through', 'replaces']) differ(name, key(wanted[name]) === got[name]);
  for (const name of ['into', 'across']) differ(name, place(wanted[name]) === place(got[name]));
  for (const name of ['pressure', 'duration', 'volume', 'diameter', 'depth'])
    differ(name, sameAmount(wanted[name], got[name]));
  // How many cores stands in the result, too: one of the two says it.
  if (wanted['do'] !== 'sample' || wanted['count'] !== undefined)
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
      // A kind that no table has is named by its last word: nothing else of it can be proposed.
      const alike =
        kind === undefined
          ? String(row['kind']).includes(wordsOf(device.kind).at(-1) ?? ' ')
          : own?.family === kind.family;
      return alike && (size === undefined || sameAmount(size, measure) || size === measure);
    });
    if (!found) return [`new ${key}: not proposed`];
    open.delete(found[0]);
    keys.set(key, found[0]);
    return [];
  });
}

/** A drug by any of its names: GTN is glyceryl trinitrate. */
const drugOf = (name: unknown) => drugTable.find(String(name))?.row.name ?? bare(name);

const sameDrug = (wanted: Row, got: Row) =>
  drugOf(wanted['drug']) === drugOf(got['drug']) &&
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
    const families = new Map(devices.map(({ key, kind }) => [key, kindNamed(kind)?.row.family]));
    return readings.map((reading, index): Judged => {
      const said = table.lines[index] as Said;
      const wanted = said.events ?? [];
      const fresh = (typeof said.new?.['kind'] === 'string' ? { new: said.new } : (said.new ?? {})) as Record<
        string,
        Row
      >;
      for (const [key, device] of Object.entries(reading.devices))
        families.set(key, kindNamed(device.kind)?.row.family);
      const wrong = match(fresh, reading, keys);
      // A new device of which a line says no more than that it is new.
      const [own] = Object.keys(reading.devices);
      if (own && said.new === undefined && (said.events ?? []).some(({ device }) => device === 'new'))
        keys.set('new', own);
      const each = wanted.map((row, place) => {
        const event = reading.events[place];
        return event ? differences(row, event, keys, families) : ['no event'];
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
