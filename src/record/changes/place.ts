import { message, type Param } from '../../findings/message.js';
import { isWordKey } from '../../findings/say.js';
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

/**
 * The way to a fact: `Device drain: size`, `Event 2024-11-07 11:12 +03:00 puncture needle: depth`.
 * @param spoken true names devices as people do and not by their keys, and of times the clock alone: `Event 11:12
 * puncture access needle`
 */
export function placeOf(path: readonly PropertyKey[], root: PlainGroup, spoken = false): Param {
  const devices = fieldOf(root, 'devices');
  const called = (key: string): string => {
    const device = spoken && devices !== undefined && isGroup(devices) ? fieldOf(devices, key) : undefined;
    if (device === undefined || !isGroup(device)) return key;
    const kind = fieldOf(device, 'kind');
    return typeof kind === 'string' ? kind : key;
  };
  const steps: Param[] = [];
  let here: Plain | undefined = root;
  let group = '';
  const entry = (name: string) =>
    message('place.entry', { entry: wordOf(`entry.${group}`) ?? fieldName(group), name });
  for (const segment of path) {
    const next: Plain | undefined = child(here, segment);
    if (typeof segment === 'number')
      steps[steps.length - 1] = entry(
        namesOf(next, spoken ? called : undefined).join(' ') || String(segment + 1),
      );
    else if (KEYED.has(group))
      steps[steps.length - 1] = entry(group === 'devices' ? called(String(segment)) : String(segment));
    else steps.push(fieldName(String(segment)));
    group = typeof segment === 'string' && !KEYED.has(group) ? segment : '';
    here = next;
  }
  const [whole = '', ...parts] = steps;
  const sentence = parts.length === 0 ? whole : message('place.within', { whole, parts: { list: parts } });
  return { sentence };
}

/** A field by the name that people know it by; one without is told by its name in the record. */
const fieldName = (name: string): Param => wordOf(`field.${name}`) ?? fieldWords(name);

const wordOf = (key: string): Param | undefined => (isWordKey(key) ? { key, params: {} } : undefined);

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

function namesOf(entry: Plain | undefined, called?: (key: string) => string): string[] {
  if (entry === undefined || !isGroup(entry)) return [];
  return NAMES.flatMap(name => {
    const value = fieldOf(entry, name);
    // Of names that people gave themselves none is said where there are words for what they stand for.
    if (typeof value !== 'string' || (called && name === 'key')) return [];
    if (!called) return [timeText(value)];
    return [name === 'device' ? called(value) : clockText(value)];
  });
}

/** `2024-11-07T11:12:00+03:00` as `11:12`; anything else as it is. */
const clockText = (text: string): string =>
  /^\d{4}-\d{2}-\d{2}T(\d{2}:\d{2}):\d{2}(?:Z|[+-]\d{2}:\d{2})$/.exec(text)?.[1] ?? text;

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
