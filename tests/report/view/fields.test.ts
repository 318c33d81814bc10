import { describe, expect, it } from 'vitest';
import { CasetallyError } from '../../../src/findings/errors.js';
import { allFields } from '../../../src/record/keys.js';
import { type CaseRecord, recordSchema } from '../../../src/record/schema/record.js';
import { buildView } from '../../../src/report/view/view.js';
import { assessment, fullStates, read } from '../../support/report/assess.js';
import { fullCase } from '../../support/report/cases.js';
import { render } from '../../support/report/reports.js';
import { sampled } from '../../support/sampled.js';

/**
 * Not facts of the case: the format's own marks, a key that nothing in the report needs to refer to, and a name that is
 * read as the text of its condition.
 */
const notFacts = new Set([
  ...['$schema', 'casetally', 'aftercare[].key', 'before.conditions[].what'],
  // Said with the site.
  ...['left[].side', 'devices.*.carried.side'],
  // A name in parts is shown as the one text that they make.
  ...['patient', 'team[]'].flatMap(who =>
    ['family', 'given', 'given[]', 'prefix', 'suffix'].map(part => `${who}.name.${part}`),
  ),
]);

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Typed values that are one fact each: quantities, sizes, times, dates, spans. */
function isLeaf(value: unknown): boolean {
  if (!isObject(value)) return !Array.isArray(value);
  // Two names each: a device of the record has a diameter too, a task of aftercare a `when`.
  const has = (...names: readonly string[]) => names.every(name => name in value);
  return (
    has('iso') || has('unit', 'code') || has('text', 'diameter') || has('text', 'span') || has('text', 'when')
  );
}

type Place = readonly (string | number)[];

/** Every fact of a record, with its place. */
function facts(value: unknown, place: Place = []): Place[] {
  if (isLeaf(value)) return value === undefined ? [] : [place];
  if (Array.isArray(value)) return value.flatMap((child, index) => facts(child, [...place, index]));
  if (!isObject(value)) return [];
  return Object.entries(value).flatMap(([key, child]) => facts(child, [...place, key]));
}

/** The path as the schema has it: `events[].over`, `devices.*.lot`. */
function schemaPath(place: Place): string {
  return place
    .map((step, depth) => {
      if (typeof step === 'number') return '[]';
      const keyed =
        depth > 0 &&
        ['devices', 'targets', 'parts'].includes(String(place[depth - 1])) &&
        place[0] !== 'events';
      return `${depth === 0 ? '' : '.'}${keyed ? '*' : step}`;
    })
    .join('');
}

function without(record: CaseRecord, place: Place): CaseRecord {
  const copy = structuredClone(record);
  const parent = place
    .slice(0, -1)
    .reduce<unknown>(
      (node, step) => (Array.isArray(node) ? node[Number(step)] : isObject(node) ? node[step] : undefined),
      copy,
    );
  const last = place[place.length - 1];
  if (Array.isArray(parent)) parent.splice(Number(last), 1);
  else if (isObject(parent) && last !== undefined) delete parent[last];
  return copy;
}

/** The patient of the case lives; a death has fields of its own. A site that begins with its side is not given it twice. */
const record = read(
  fullCase
    .replace('outcome:\n', 'outcome:\n  died: 2024-03-16\n  coroner: yes\n')
    .replace('site: right anterior duct, side: right', 'site: anterior duct, side: right'),
);
/** A field that no record can be without makes the view fail: that it is read is what is asked here. */
function report(r: CaseRecord): string {
  try {
    return render(buildView(r, assessment(r, fullStates)), 'record', 'text');
  } catch (cause) {
    const why = cause instanceof CasetallyError ? cause.cause : cause;
    if (why instanceof TypeError) return 'no report without it';
    throw cause;
  }
}

const whole = report(record);
const places = facts(record);

/** `text` and codes are parts of a coded concept, which is one field of the schema. */
const concept = (path: string) => path.replace(/\.text$|\.codes\[\]\.(system|code|display|version)$/, '');

describe('no fact of the record is dropped on the way to the full report', () => {
  it('the case of this test fills every field of the schema', () => {
    const filled = [...new Set(places.map(schemaPath).map(concept))];
    const within = (path: string) =>
      filled.some(f => f === path || f.startsWith(`${path}[]`) || f.startsWith(`${path}.`));
    const fields = [...new Set(allFields(recordSchema({})).map(concept))];
    expect(fields.length).toBeGreaterThan(200);
    expect(fields.filter(path => !notFacts.has(path) && !within(path))).toEqual([]);
  });

  const facts = places.filter(place => !notFacts.has(schemaPath(place)));
  it.each(sampled('facts of the full report', facts, 6).map(place => [place.join('.'), place] as const))(
    '%s changes the report when it is taken out',
    (_, place) => {
      expect(report(without(record, place))).not.toBe(whole);
    },
  );
});
