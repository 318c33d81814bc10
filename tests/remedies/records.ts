import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { readBank, readExpected } from '../plants/bank.js';
import { edited, spelt } from '../plants/edit.js';
import { exampleText } from '../support/examples.js';
import { at, type Data, parentOf, renamed, without, withValue } from './place.js';
import { shapeOf, walk } from './samples.js';

/** A record with something wrong in it. */
export interface Wrong {
  readonly name: string;
  readonly data: Data;
  /** The same without the mistake, where somebody who mends it knows what was meant. */
  readonly right?: Data;
  /** What a plant is expected to be caught by. */
  readonly codes?: readonly string[];
}

const asData = (text: string): Data => parse(text);

/** The open part of the bank: its cases as they stand, and with each of their mistakes. */
export function planted(): Wrong[] {
  return readBank()
    .filter(base => !base.apart)
    .flatMap(base => {
      const whole = asData(base.text);
      return [
        { name: base.name, data: whole },
        ...base.mistakes.map(mistake => ({
          name: `${base.name}: ${mistake.say}`,
          data: edited(mistake.text ? asData(spelt(base.text, mistake)) : whole, mistake),
          codes: readExpected(mistake).codes,
        })),
      ];
    });
}

const cases = join(import.meta.dirname, '..', 'cases');

/** The small records of the tally and of sizes, and the example that is full of mistakes. */
export function knownBad(): Wrong[] {
  const head = {
    ...{ id: 'T-1', status: 'completed', date: '2024-03-14', timeZone: 'Europe/Lisbon' },
    ...{ kind: 'nephrostomy', started: '08:00' },
  };
  const base = {
    ...{ casetally: 1, indication: { text: 'test' }, report: { status: 'preliminary', author: 'op' } },
    patient: { identifiers: [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: '1' }] },
    team: [{ key: 'op', role: 'operator', name: 'Dr Ilse Branquinho' }],
  };
  const small = readdirSync(cases)
    .filter(file => file.endsWith('.yaml'))
    .flatMap(file => {
      const all: { name: string; record: Data }[] = parse(readFileSync(join(cases, file), 'utf8'));
      return all.map(({ name, record }) => ({
        name: `${file}: ${name}`,
        data: { ...base, ...record, case: { ...head, ...Object(record['case']) } },
      }));
    });
  return [...small, { name: 'mistaken', data: asData(exampleText('mistaken.yaml')) }];
}

/**
 * An example with one field left out, emptied, misspelt, an empty list, or a word that means nothing: each kind of field
 * once, in the ways that can go wrong with it by turns.
 */
export function misspelt(file: string): Wrong[] {
  const whole = asData(exampleText(file));
  const places = new Map(walk(whole).map(path => [shapeOf(path), path]));
  return [...places.values()].flatMap((path, turn) => {
    const ways = mistakesAt(whole, path);
    const way = ways[turn % ways.length];
    return way ? [{ ...way, right: whole }] : [];
  });
}

function mistakesAt(whole: Data, path: string): Wrong[] {
  const value = at(whole, path);
  const name = path.slice(parentOf(path).length).replace(/^\./, '');
  const named = /^[a-zA-Z]+$/.test(name);
  const list = at(whole, parentOf(path));
  // The one entry of a list cannot go.
  const alone = Array.isArray(list) && list.length === 1;
  return [
    ...(named ? [{ name: `${path} left out`, data: without(whole, path) }] : []),
    ...(alone ? [] : [{ name: `${path} empty`, data: withValue(whole, path, null) }]),
    ...(named ? [{ name: `${path} misspelt`, data: renamed(whole, path, `${name}e`) }] : []),
    ...(Array.isArray(value) ? [{ name: `${path} an empty list`, data: withValue(whole, path, []) }] : []),
    ...(typeof value === 'string'
      ? [{ name: `${path} in words`, data: withValue(whole, path, 'qwrtz') }]
      : []),
  ];
}
