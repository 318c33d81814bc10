import { type Finding, messageOf, remedyOf } from '../../../src/findings/finding.js';
import { at, type Data, entryOf, parentOf, renamed, without, withValue } from './place.js';
import { sampleAt } from './samples.js';

/** A record, something found in it, and its remedy as a person reads it. */
export interface Told {
  readonly data: Data;
  readonly found: Finding;
  /** The record as it would be without the mistake, where that is known: whoever is asked for a value knows it. */
  readonly right: Data | undefined;
}

/** One way of saying what to do, and the records that come of doing it. Every one must end the finding. */
interface Way {
  readonly says: RegExp;
  readonly does: (told: Told, match: RegExpExecArray) => readonly Data[];
}

/**
 * Does what a remedy says, as it is written and nothing more: a field that it names gets a value of the examples, a value
 * that it names is written where the finding stands. Empty where it names neither.
 */
export function followed(told: Told): readonly Data[] {
  const text = remedyOf(told.found);
  return ways.flatMap(({ says, does }) => {
    const match = says.exec(text);
    return match ? does(told, match) : [];
  });
}

/** The record in which somebody accepted the finding, where its remedy says that it may be. */
export function accepted({ data, found }: Told): readonly Data[] {
  return /\b(?:acknowledge|accept)\b/i.test(remedyOf(found))
    ? [withValue(data, 'acknowledged[+]', { finding: found.code, about: found.path, reason: 'As it was' })]
    : [];
}

const set = ({ data, found }: Told, value: unknown) => withValue(data, found.path, value);
const entryAt = ({ data, found }: Told) => {
  const entry = at(data, entryOf(found.path));
  return typeof entry === 'object' && entry !== null ? entry : {};
};
const deviceAt = (told: Told) => {
  const [, key] = /^devices\.([^.[]+)/.exec(told.found.path) ?? [];
  return key ?? String(Reflect.get(entryAt(told), 'device'));
};
const lastTime = ({ data }: Told) => {
  const events = data['events'];
  const last: unknown = Array.isArray(events) ? events.at(-1) : undefined;
  return typeof last === 'object' && last !== null ? Reflect.get(last, 'at') : at(data, 'case.started');
};
const event = (told: Told, fields: Data) =>
  withValue(told.data, 'events[+]', { at: lastTime(told), ...fields });
/** A new event just before the one at the finding, at the same time. */
const eventBefore = (told: Told, fields: Data) => {
  const copy = structuredClone(told.data);
  const index = Number(/\d+/.exec(told.found.path)?.[0]);
  const events = copy['events'];
  if (Array.isArray(events)) events.splice(index, 0, { at: Reflect.get(entryAt(told), 'at'), ...fields });
  return copy;
};
const left = (told: Told, line: Data) => withValue(told.data, 'left[+]', line);
/** What a remedy lists: `a, b and c`. */
const listed = (text: string) =>
  text.split(/, (?:or )?| and | or | \/ /).map(word => word.replace(/^'|'$/g, ''));

/** What a person would write there: what was meant, else what an example has there. */
const valueAt = ({ right }: Told, path: string) => (right && at(right, path)) ?? sampleAt(path);
const group = (told: Told, path: string, names: string) =>
  Object.fromEntries(listed(names).map(name => [name, valueAt(told, `${path}.${name}`)]));
/** The entry, or the group, with another field of which the remedy gives no value. */
const added = (told: Told, field: string): Data => {
  const here = told.found.path.endsWith(']') ? told.found.path : entryOf(told.found.path);
  const path = field.includes('.') ? field : `${here}.${field}`;
  return withValue(told.data, path, valueAt(told, path));
};
const until = { condition: 'drain output under 10 mL a day' };

const ways: readonly Way[] = [
  {
    says: /^Did you mean ('[^']+'(?: or '[^']+')*)/,
    does: (told, [, names = '']) =>
      names
        .split(' or ')
        .map(name => name.slice(1, -1))
        .map(name =>
          told.found.code === 'record.unknown-key'
            ? renamed(told.data, told.found.path, name)
            : set(told, name),
        ),
  },
  {
    says: /^Use one of: (.*)\.$/,
    // Which of many was meant is known only where the right record is.
    does: (told, [, names = '']) => {
      const meant = told.right && at(told.right, told.found.path);
      return typeof meant === 'string' && names.split(', ').includes(meant) ? [set(told, meant)] : [];
    },
  },
  {
    says: /^Add '([\w-]+)'(?: with ((?:\w+(?:, | and )?)+)(?:, and with (\w+) unless status is preliminary)?|, a list of entries with ([^;:.]+))?\.$/,
    does: (told, [, , fields, more, inEach]) => {
      const { path } = told.found;
      if (fields !== undefined)
        return [set(told, group(told, path, more === undefined ? fields : `${fields}, ${more}`))];
      const value = valueAt(told, path);
      if (inEach !== undefined)
        return [
          set(
            told,
            Array.from(Array.isArray(value) ? value : [0], (_, i) => group(told, `${path}[${i}]`, inEach)),
          ),
        ];
      // Nobody was told what goes into a group; where a text does as well it is written.
      const text = /expected text/.test(messageOf(told.found))
        ? Reflect.get(Object(value), 'text')
        : undefined;
      return [set(told, typeof value === 'object' ? (text ?? {}) : value)];
    },
  },
  { says: /\b[Ww]rite (?:a value, or )?'none'|, or 'none'/, does: told => [set(told, 'none')] },
  { says: /^(?:Leave the line out|Take the line out)/, does: told => [without(told.data, told.found.path)] },
  {
    says: /^Write a value: |^Write a value, or|^Write at least one entry|^Write (?:\d\d:\d\d|YYYY|a day|an IANA name|[a-z ]+\.$)/,
    does: told => {
      const value = told.right && at(told.right, told.found.path);
      return value === undefined ? [] : [set(told, value)];
    },
  },
  {
    says: /^Write a number with a unit, such as ([^;]+)\.$/,
    does: (told, [, value]) => [set(told, value)],
  },
  {
    says: /^Set ([a-z]+\.[a-zA-Z]+) to '([^']+)' with ([a-z]+\.[a-zA-Z]+)/,
    does: (told, [, path = '', value, other = '']) => [
      withValue(withValue(told.data, path, value), other, valueAt(told, other)),
    ],
  },
  {
    says: /^Add ([a-z]+\.[a-zA-Z]+): ([^.;]+)/,
    does: (told, [, path = '', values = '']) =>
      listed(values).map(value => withValue(told.data, path, value)),
  },
  {
    says: /^Add ([a-z]+(?:\.[a-zA-Z]+)?) with ((?:[a-z]+(?:, | and )?)+)[.:]/,
    does: (told, [, field = '', names = '']) => {
      const top = Object.hasOwn(told.data, field) || field.includes('.') || field === told.found.path;
      const path = top ? field : `${entryOf(told.found.path)}.${field}`;
      return [withValue(told.data, path, group(told, path, names))];
    },
  },
  {
    says: /^Add ([a-z]+\.[a-zA-Z]+|strength|lastDose)(?:[.,]|$)/,
    does: (told, [, field = '']) => [added(told, field)],
  },
  {
    says: /^Add (?:a|the) ([a-zA-Z]+) to case, such as ([^,]+),/,
    does: (told, [, field = '', value]) => [withValue(told.data, `case.${field}`, value)],
  },
  {
    says: /, or set report\.status to preliminary/,
    does: told => [withValue(told.data, 'report.status', 'preliminary')],
  },
  {
    says: /^Write '([^']+)' in ([a-z]+\.[a-zA-Z]+)/,
    does: (told, [, value, path = '']) => [withValue(told.data, path, value)],
  },
  {
    says: /Take it out of 'left'|^Take (?:one|the line) (?:of the two events )?out\b|^Keep one of the two lines/,
    does: told => [without(told.data, entryOf(told.found.path))],
  },
  {
    says: /list ([\w-]+) in 'left'(?: with purpose (\w+)(?: or (\w+), and until)?| with until or latest)/,
    does: (told, [, device, purpose, other]) =>
      purpose === undefined
        ? [left(told, { device, until }), left(told, { device, latest: '6 weeks' })]
        : other === undefined
          ? [left(told, { device, purpose })]
          : [left(told, { device, purpose, until }), left(told, { device, purpose: other, until })],
  },
  {
    says: /^List it in 'left' with purpose (unintended), site and until/,
    does: (told, [, purpose]) => [
      left(told, { device: deviceAt(told), purpose, site: 'Pulmonary artery', until }),
    ],
  },
  {
    says: /add an event remove with device ([\w-]+)((?:,? and one with part [\w-]+)*)(?=[,.])/,
    does: (told, [, device, more = '']) => [
      [...more.matchAll(/part ([\w-]+)/g)].reduce(
        (data, [, part]) => event({ ...told, data }, { do: 'remove', device, part }),
        event(told, { do: 'remove', device }),
      ),
    ],
  },
  {
    says: /^Add an event remove with device ([\w-]+) and part ([\w-]+), or list the part in 'left' with purpose (\w+) or (\w+), and until/,
    does: (told, [, device, part, ...purposes]) => [
      event(told, { do: 'remove', device, part }),
      ...purposes.map(purpose => left(told, { device, part, purpose, until })),
    ],
  },
  {
    says: /^Add the removal of ([\w-]+) (?:\([^)]*\) )?before that/,
    does: (told, [, device]) => [eventBefore(told, { do: 'remove', device })],
  },
  {
    says: /^Add the removal (?:between|before)/,
    does: told => [eventBefore(told, { do: 'remove', device: deviceAt(told) })],
  },
  {
    says: /^Add the deflation/,
    does: told => [eventBefore(told, { do: 'deflate', device: deviceAt(told) })],
  },
  {
    says: /^Add the inflation/,
    does: told => [eventBefore(told, { do: 'inflate', device: deviceAt(told) })],
  },
  {
    says: /^Add deploy, release or detach/,
    does: told =>
      ['deploy', 'release', 'detach'].map(verb => event(told, { do: verb, device: deviceAt(told) })),
  },
  { says: /\badd lock\b/, does: told => [event(told, { do: 'lock', device: deviceAt(told) })] },
  {
    says: /^Add unlock/,
    does: told => [eventBefore(told, { do: 'unlock', device: deviceAt(told) })],
  },
  {
    says: /set use to opened unused, unopened or failed/,
    does: told =>
      ['opened unused', 'unopened', 'failed'].map(use =>
        withValue(told.data, `devices.${deviceAt(told)}.use`, use),
      ),
  },
  {
    says: /^Add purpose: temporary, intended or unintended/,
    does: told =>
      ['temporary', 'intended', 'unintended'].map(purpose =>
        withValue(told.data, `${entryOf(told.found.path)}.purpose`, purpose),
      ),
  },
  {
    says: /^Add until or latest in left|until \/ latest under left/,
    does: told => [
      withValue(told.data, `${entryOf(told.found.path)}.until`, until),
      withValue(told.data, `${entryOf(told.found.path)}.latest`, '6 weeks'),
    ],
  },
  {
    says: /\bsay carried\b/,
    does: told => [withValue(told.data, `devices.${deviceAt(told)}.carried`, {})],
  },
  {
    says: /, or write (insert)\b/,
    does: (told, [, verb]) => [withValue(told.data, `${entryOf(told.found.path)}.do`, verb)],
  },
  {
    says: /^Add count to that line/,
    does: told => [
      withValue(told.data, `${entryOf(told.found.path)}.count`, Number(told.found.params['number'])),
    ],
  },
  {
    says: /^Correct the status of consent \(([^)]+)\)/,
    does: (told, [, values = '']) =>
      told.found.path.endsWith('.status') ? listed(values).map(value => set(told, value)) : [],
  },
  {
    says: /^Add its family: (.*)\.$/,
    does: (told, [, names = '']) =>
      listed(names).map(name => withValue(told.data, `${parentOf(told.found.path)}.family`, name)),
  },
  {
    says: /^Read (?:the value|dose)/,
    does: told => {
      const [, values] = /\. ((?:[^.]|\.\d)+) would fit\.$/.exec(messageOf(told.found)) ?? [];
      return values === undefined ? [] : listed(values).map(value => set(told, value));
    },
  },
  {
    says: /^Add it to complications/,
    does: told => [
      withValue(told.data, 'complications[+]', { what: told.found.params['text'], severity: 'moderate' }),
    ],
  },
  {
    says: /^Add it under before\.anticoagulants with its last dose/,
    does: told => [
      withValue(told.data, 'before.anticoagulants[+]', {
        drug: told.found.params['drug'],
        lastDose: `${at(told.data, 'case.date')}T00:10`,
      }),
    ],
  },
  {
    says: /take the (?:device out of this task|mark away if there was none)/,
    does: told => [without(told.data, told.found.path)],
  },
  {
    says: /^Add the earlier case's identifier under carried/,
    does: told => [withValue(told.data, `${told.found.path}.case`, sampleAt('case.order'))],
  },
];
