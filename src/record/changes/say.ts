import { fieldOf, isGroup, isList, type Plain, type PlainGroup } from '../plain.js';

/** Fields that name an entry: they stand first and without their own name. */
const LEADS = [
  'key',
  'at',
  'do',
  'what',
  'drug',
  'agent',
  'device',
  'part',
  'name',
  'study',
  'finding',
  'measure',
  'text',
  'value',
] as const;

/** One entry of a list or of a keyed group, in words. */
const ENTRY: Readonly<Record<string, string>> = {
  team: 'Team member',
  access: 'Access',
  targets: 'Target',
  devices: 'Device',
  events: 'Event',
  findings: 'Finding',
  images: 'Images',
  contrast: 'Contrast',
  specimens: 'Specimen',
  complications: 'Complication',
  drugs: 'Drug',
  labs: 'Laboratory value',
  left: 'What stays',
  aftercare: 'Aftercare',
  acknowledged: 'Accepted warning',
  identifiers: 'Identifier',
  parts: 'part',
};

/** Groups whose fields are named by people. */
const KEYED = new Set(['devices', 'targets', 'parts']);

/** `takesWire` as `takes wire`. */
function fieldWords(name: string): string {
  return name.replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
}

/** A value as one line of text. */
export function valueText(value: Plain): string {
  if (typeof value === 'string') return timeText(value);
  if (isList(value)) return value.map(valueText).join('; ');
  const leads: readonly string[] = LEADS;
  const first = LEADS.flatMap(name => fieldOf(value, name) ?? []).map(valueText);
  const rest = Object.entries(value)
    .filter(([name]) => !leads.includes(name))
    .map(
      ([name, field]) => `${fieldWords(name)} ${isGroup(field) ? `(${valueText(field)})` : valueText(field)}`,
    );
  return [first.join(' '), ...rest].filter(text => text !== '').join(', ');
}

/** One step of the way to a fact: a field by its name in the record, or one entry of a list or keyed group. */
export type Place =
  | { readonly field: string }
  | {
      /** Name of the list or group: `events`, `devices`. */
      readonly entry: string;
      /** What tells it from the others: its key, or time, verb and device. Empty for a bare line of text. */
      readonly names: readonly string[];
      /** Its number in the list, from 1; absent in a keyed group. */
      readonly number?: number;
    };

/** The way to a fact, step by step, for words of any language. */
export function placesOf(path: readonly PropertyKey[], root: PlainGroup): Place[] {
  const places: Place[] = [];
  let here: Plain | undefined = root;
  let group = '';
  for (const segment of path) {
    const next: Plain | undefined = child(here, segment);
    if (typeof segment === 'number')
      places[places.length - 1] = { entry: group, names: namesOf(next), number: segment + 1 };
    else if (KEYED.has(group)) places[places.length - 1] = { entry: group, names: [String(segment)] };
    else places.push({ field: String(segment) });
    group = typeof segment === 'string' && !KEYED.has(group) ? segment : '';
    here = next;
  }
  return places;
}

/** A way in words: `Device drain: size`, `Event 2024-11-07 11:12 +03:00 puncture needle: depth`. */
export function placeWords(places: readonly Place[]): string {
  const [head = '', ...rest] = places.map(place =>
    'field' in place
      ? fieldWords(place.field)
      : `${ENTRY[place.entry] ?? fieldWords(place.entry)} ${
          place.names.length > 0 ? place.names.join(' ') : (place.number ?? '')
        }`,
  );
  const capital = `${head.charAt(0).toUpperCase()}${head.slice(1)}`;
  return rest.length === 0 ? capital : `${capital}: ${rest.join(', ')}`;
}

/** Fields that tell an entry from the others, in the order in which they are said. */
const NAMES = [
  'key',
  'at',
  'do',
  'what',
  'drug',
  'agent',
  'device',
  'part',
  'study',
  'finding',
  'system',
] as const;

function namesOf(entry: Plain | undefined): string[] {
  if (entry === undefined || !isGroup(entry)) return [];
  return NAMES.flatMap(name => fieldOf(entry, name) ?? []).flatMap(value =>
    typeof value === 'string' ? [timeText(value)] : [],
  );
}

/** `2024-11-07T11:12:00+03:00` as `2024-11-07 11:12 +03:00`; anything else as it is. */
function timeText(text: string): string {
  const time = /^(\d{4}-\d{2}-\d{2})T(\d{2}:\d{2})(:\d{2})(Z|[+-]\d{2}:\d{2})$/.exec(text);
  if (!time) return text;
  const [, date, clock, seconds, offset] = time;
  return `${date} ${clock}${seconds === ':00' ? '' : seconds} ${offset}`;
}

function child(value: Plain | undefined, segment: PropertyKey): Plain | undefined {
  if (value === undefined || typeof value === 'string') return undefined;
  if (isList(value)) return typeof segment === 'number' ? value[segment] : undefined;
  return fieldOf(value, String(segment));
}
