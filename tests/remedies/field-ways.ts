import { messageOf } from '../../src/findings/finding.js';
import { english } from '../support/english.js';
import { at, entryOf, parentOf, renamed, without, withValue } from './place.js';
import { sampleAt } from './samples.js';
import { added, group, listed, set, valueAt, type Way } from './told.js';

/** Remedies that name a field or its value. */
export const fieldWays: readonly Way[] = [
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
    says: /^Add ([a-z]+\.[a-zA-Z]+|lastDose)(?:[.,]|$)/,
    does: (told, [, field = '']) => [added(told, field)],
  },
  {
    says: /^Set (\S+) to yes\.$/,
    does: (told, [, path = '']) => [withValue(told.data, path, true)],
  },
  {
    says: /^Describe it in (\S+)\.$/,
    does: (told, [, path = '']) => [withValue(told.data, path, 'rash')],
  },
  {
    says: /^Add strength, such as ([^,]+),/,
    does: (told, [, values = '']) =>
      listed(values).map(value => withValue(told.data, `${entryOf(told.found.path)}.strength`, value)),
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
        drug: english(told.found.params['drug']),
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
  {
    says: /^Correct its time to (\S+) or one up to/,
    does: (told, [, time]) => [set(told, time)],
  },
];
