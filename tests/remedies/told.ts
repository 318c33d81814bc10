import type { Finding } from '../../src/findings/finding.js';
import { at, type Data, entryOf, withValue } from './place.js';
import { sampleAt } from './samples.js';

/** A record, something found in it, and its remedy as a person reads it. */
export interface Told {
  readonly data: Data;
  readonly found: Finding;
  /** The record as it would be without the mistake, where that is known: whoever is asked for a value knows it. */
  readonly right: Data | undefined;
}

/** One way of saying what to do, and the records that come of doing it. Every one must end the finding. */
export interface Way {
  readonly says: RegExp;
  readonly does: (told: Told, match: RegExpExecArray) => readonly Data[];
}

/** The record with a value at the place of the finding. */
export const set = ({ data, found }: Told, value: unknown) => withValue(data, found.path, value);
export const entryAt = ({ data, found }: Told) => {
  const entry = at(data, entryOf(found.path));
  return typeof entry === 'object' && entry !== null ? entry : {};
};
export const deviceAt = (told: Told) => {
  const [, key] = /^devices\.([^.[]+)/.exec(told.found.path) ?? [];
  return key ?? String(Reflect.get(entryAt(told), 'device'));
};
export const lastTime = ({ data }: Told) => {
  const events = data['events'];
  const last: unknown = Array.isArray(events) ? events.at(-1) : undefined;
  return typeof last === 'object' && last !== null ? Reflect.get(last, 'at') : at(data, 'case.started');
};
export const event = (told: Told, fields: Data) =>
  withValue(told.data, 'events[+]', { at: lastTime(told), ...fields });
/** A new event just before the one at the finding, at the same time. */
export const eventBefore = (told: Told, fields: Data) => {
  const copy = structuredClone(told.data);
  const index = Number(/\d+/.exec(told.found.path)?.[0]);
  const events = copy['events'];
  if (Array.isArray(events)) events.splice(index, 0, { at: Reflect.get(entryAt(told), 'at'), ...fields });
  return copy;
};
/** A new event just after the first of the device, at the same time. */
export const eventAfterEntry = (told: Told, fields: Data) => {
  const copy = structuredClone(told.data);
  const events = copy['events'];
  if (!Array.isArray(events)) return copy;
  const index = events.findIndex(one => one?.device === fields['device']);
  events.splice(index + 1, 0, { at: events[index]?.at, ...fields });
  return copy;
};
export const left = (told: Told, line: Data) => withValue(told.data, 'left[+]', line);
/** What a remedy lists: `a, b and c`. */
export const listed = (text: string) =>
  text.split(/, (?:or )?| and | or | \/ /).map(word => word.replace(/^'|'$/g, ''));

/** What a person would write there: what was meant, else what an example has there. */
export const valueAt = ({ right }: Told, path: string) => (right && at(right, path)) ?? sampleAt(path);
export const group = (told: Told, path: string, names: string) =>
  Object.fromEntries(listed(names).map(name => [name, valueAt(told, `${path}.${name}`)]));
/** The entry, or the group, with another field of which the remedy gives no value. */
export const added = (told: Told, field: string): Data => {
  const here = told.found.path.endsWith(']') ? told.found.path : entryOf(told.found.path);
  const path = field.includes('.') ? field : `${here}.${field}`;
  return withValue(told.data, path, valueAt(told, path));
};
export const until = { condition: 'drain output under 10 mL a day' };
