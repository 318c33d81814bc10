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
export function fieldWords(name: string): string {
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

/** What a path is about: `Device drain: size`, `Event 2024-11-07 11:12 puncture needle: depth`. */
export function pathWords(path: readonly PropertyKey[], root: PlainGroup): string {
  const parts: string[] = [];
  let here: Plain | undefined = root;
  let group = '';
  for (const segment of path) {
    const next: Plain | undefined = child(here, segment);
    if (typeof segment === 'number') parts[parts.length - 1] = entryWords(group, segment, next);
    else if (KEYED.has(group)) parts[parts.length - 1] = `${ENTRY[group] ?? group} ${String(segment)}`;
    else parts.push(fieldWords(String(segment)));
    group = typeof segment === 'string' && !KEYED.has(group) ? segment : '';
    here = next;
  }
  const [head = '', ...rest] = parts;
  const capital = `${head.charAt(0).toUpperCase()}${head.slice(1)}`;
  return rest.length === 0 ? capital : `${capital}: ${rest.join(', ')}`;
}

function entryWords(group: string, index: number, entry: Plain | undefined): string {
  const word = ENTRY[group] ?? fieldWords(group);
  if (entry === undefined || typeof entry === 'string' || isList(entry)) return `${word} ${index + 1}`;
  const short = ['key', 'at', 'do', 'what', 'drug', 'agent', 'device', 'part', 'study', 'finding', 'system']
    .flatMap(name => fieldOf(entry, name) ?? [])
    .filter(value => typeof value === 'string')
    .map(timeText);
  return short.length === 0 ? `${word} ${index + 1}` : `${word} ${short.join(' ')}`;
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
