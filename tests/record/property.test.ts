import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { catalogue } from '../../src/findings/catalogue.js';
import { messageOf, remedyOf, stops } from '../../src/findings/finding.js';
import { type ParsedCase, parseCase, parseCaseData } from '../../src/record/parse.js';
import { pathSegments, pathText } from '../../src/record/path.js';
import { runs } from '../support/sampled.js';
import { SMALL } from './small.js';

const folder = new URL('../../examples/', import.meta.url);
const texts = readdirSync(folder)
  .filter(name => /\.(yaml|json)$/.test(name) && name !== 'site.yaml')
  .map(name => readFileSync(new URL(name, folder), 'utf8'));

type Json = string | number | boolean | null | Json[] | { [key: string]: Json };
const trees = [SMALL, ...texts].map(text => parse(text) as Json);

/** What holds of every answer, whatever was read. */
function holds(parsed: ParsedCase, fromText: boolean): void {
  const stopped = parsed.findings.some(stops);
  // A record may be whole and still have errors, such as a key that leads nowhere; without one there is always a reason.
  if (!parsed.record) expect(stopped).toBe(true);
  if (parsed.record) expect(parsed.partial).toBeUndefined();
  if (parsed.unreadable) {
    expect(parsed.findings.map(f => f.severity)).toContain('fatal');
    expect(parsed.partial).toBeUndefined();
  } else expect(parsed.findings.map(f => f.severity)).not.toContain('fatal');
  const bounds = ['record.too-big', 'record.too-deep', 'record.too-many'];
  for (const f of parsed.findings) {
    expect(pathText(pathSegments(f.path))).toBe(f.path);
    expect(messageOf(f)).not.toBe('');
    expect(messageOf(f)).not.toMatch(/undefined|\[object/);
    expect(remedyOf(f)).not.toMatch(/undefined|\[object/);
    // Every place of the wording was filled: what fills it may itself look like one.
    const { message, remedy } = catalogue[f.code];
    const asked = [...`${message} ${remedy}`.matchAll(/\{(\w+)\}/g)].map(([, name]) => name);
    expect(Object.keys(f.params)).toEqual(expect.arrayContaining(asked));
    if (fromText && !bounds.includes(f.code))
      expect([f.code, f.line, f.column]).toEqual([f.code, expect.any(Number), expect.any(Number)]);
  }
}

/** A copy of the tree with one place changed; `pick` chooses the place, the same for the same number. */
function mutate(tree: Json, pick: number, change: (value: Json) => Json | undefined): Json {
  const places: (readonly (string | number)[])[] = [];
  const visit = (node: Json, path: readonly (string | number)[]) => {
    if (path.length > 0) places.push(path);
    if (Array.isArray(node)) {
      node.forEach((child, index) => {
        visit(child, [...path, index]);
      });
    } else if (typeof node === 'object' && node !== null)
      for (const [name, child] of Object.entries(node)) visit(child, [...path, name]);
  };
  visit(tree, []);
  const place = places[pick % places.length] ?? [];
  const apply = (node: Json, path: readonly (string | number)[]): Json | undefined => {
    const [head, ...rest] = path;
    if (head === undefined) return change(node);
    if (Array.isArray(node))
      return node.flatMap((child, index) => {
        const next = index === head ? apply(child, rest) : child;
        return next === undefined ? [] : [next];
      });
    if (typeof node !== 'object' || node === null) return node;
    return Object.fromEntries(
      Object.entries(node).flatMap(([name, child]): [string, Json][] => {
        const next = name === head ? apply(child, rest) : child;
        return next === undefined ? [] : [[name, next]];
      }),
    );
  };
  return apply(tree, place) ?? {};
}

const anyJson = fc.jsonValue({ maxDepth: 4 }) as fc.Arbitrary<Json>;
const change = fc.oneof(
  anyJson.map(value => () => value),
  fc.constant(() => undefined),
  fc.constant((value: Json): Json => [value, value]),
  fc.constant((value: Json): Json => ({ text: value, 'a.b': 1 })),
  fc.string({ unit: 'binary' }).map(text => (): Json => text),
  fc
    .constantFrom(
      'none',
      '',
      '12 mL',
      '09:00',
      '2024-02-30',
      '7 Fr x 26 cm',
      '-0',
      '1e9',
      'Europe/Lisbon',
      '$ref',
    )
    .map(text => (): Json => text),
);

describe('any input', () => {
  it('as JSON value parses or gives findings, never an exception', () => {
    fc.assert(
      fc.property(anyJson, value => {
        holds(parseCase(JSON.stringify(value)), true);
        holds(parseCaseData(value), false);
      }),
      { numRuns: runs(150) },
    );
  });

  it('as text parses or gives findings, never an exception', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), text => {
        holds(parseCase(text), true);
      }),
      { numRuns: runs(150) },
    );
  });

  it('as bytes parses or gives findings, never an exception', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), bytes => {
        holds(parseCase(bytes), true);
      }),
      { numRuns: runs(150) },
    );
  });

  it('made from an example with up to three places changed parses or gives findings', () => {
    fc.assert(
      fc.property(
        fc.nat({ max: trees.length - 1 }),
        fc.array(fc.tuple(fc.nat(), change), { minLength: 1, maxLength: 3 }),
        (index, changes) => {
          const changed = changes.reduce<Json>(
            (now, [pick, how]) => mutate(now, pick, how),
            trees[index] ?? {},
          );
          const text = JSON.stringify(changed);
          holds(parseCase(text), true);
          holds(parseCaseData(changed), false);
        },
      ),
      { numRuns: runs(50) },
    );
  });

  it('made from the text of an example with characters taken out, put in or doubled parses or gives findings', () => {
    const edit = fc.tuple(
      fc.nat(),
      fc.constantFrom(
        '',
        ' ',
        '\n',
        '\t',
        '"',
        "'",
        '{',
        '}',
        '[',
        ']',
        ':',
        ': ',
        ',',
        '-',
        '#',
        '&',
        '*',
        '|',
        '>',
        '%',
        '\u0000',
        'ß',
        '\ud800',
        '1',
        '- ',
      ),
      fc.nat({ max: 3 }),
    );
    fc.assert(
      fc.property(
        fc.nat({ max: texts.length }),
        fc.array(edit, { minLength: 1, maxLength: 3 }),
        (index, edits) => {
          const changed = edits.reduce((now, [place, put, take]) => {
            const at = place % now.length;
            return now.slice(0, at) + put + now.slice(at + take);
          }, texts[index] ?? SMALL);
          holds(parseCase(changed), true);
        },
      ),
      { numRuns: runs(50) },
    );
  });
});

describe('the same input', () => {
  it('gives the same answer again', () => {
    for (const text of texts) {
      const [a, b] = [parseCase(text), parseCase(text)];
      expect(JSON.stringify([a.record, a.partial, a.findings])).toBe(
        JSON.stringify([b.record, b.partial, b.findings]),
      );
    }
  });

  it('is not changed by being read', () => {
    for (const tree of trees) {
      const before = JSON.stringify(tree);
      parseCaseData(tree);
      expect(JSON.stringify(tree)).toBe(before);
    }
  });

  it('with the fields of every group in another order gives the same record', () => {
    const shuffle = (node: Json): Json =>
      Array.isArray(node)
        ? node.map(shuffle)
        : typeof node === 'object' && node !== null
          ? Object.fromEntries(
              Object.entries(node)
                .reverse()
                .map(([name, child]) => [name, shuffle(child)]),
            )
          : node;
    for (const tree of trees) {
      const [a, b] = [parseCaseData(tree), parseCaseData(shuffle(tree))];
      expect(b.record).toEqual(a.record);
      expect(b.findings.map(f => `${f.code} ${f.path}`).sort()).toEqual(
        a.findings.map(f => `${f.code} ${f.path}`).sort(),
      );
    }
  });
});
