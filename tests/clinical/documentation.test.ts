import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { calculationKinds } from '../../src/clinical/calculation.js';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { catalogue } from '../../src/findings/catalogue.js';
import { clinicalSchema } from '../../src/site/clinical.js';

const page = readFileSync(join(import.meta.dirname, '..', '..', 'docs', 'clinical.md'), 'utf8');

/** First cell of each row of the table under a heading, without its marks, and the rest of the row. */
function rows(heading: string): [string, string][] {
  const start = page.indexOf(`\n${heading}\n`);
  const section = page.slice(start + heading.length + 2).split(/\n#{2,3} /)[0] ?? '';
  return section.split('\n').flatMap(line => {
    const found = /^\| `([^`]+)` \| (.*) \|$/.exec(line);
    return found ? [[found[1] ?? '', found[2] ?? ''] as [string, string]] : [];
  });
}

interface Leaf {
  value: string;
  source: string;
}

function leaves(tree: object, path = ''): [string, Leaf][] {
  return Object.entries(tree).flatMap(([name, entry]): [string, Leaf][] => {
    const here = path === '' ? name : `${path}.${name}`;
    return 'value' in entry && 'source' in entry ? [[here, entry as Leaf]] : leaves(entry as object, here);
  });
}

const sorted = (list: readonly string[]) => [...list].sort();

describe('docs/clinical.md has exactly one row', () => {
  it('for each kind of calculation', () => {
    expect(sorted(rows('## Calculations').map(([name]) => name))).toEqual(sorted(calculationKinds));
  });

  it('for each clinical finding', () => {
    const codes = Object.keys(catalogue).filter(code => code.startsWith('clinical.'));
    expect(sorted(rows('## Checks').map(([name]) => name))).toEqual(sorted(codes));
  });

  it('for each limit that a site can set', () => {
    const groups = ['radiation', 'kidney', 'bleeding', 'drugs', 'outcome'] as const;
    const schema = z.toJSONSchema(clinicalSchema, { io: 'input', reused: 'inline' });
    const settings = (node: unknown, path: string): string[] => {
      const { properties } = node as { properties?: Record<string, unknown> };
      return properties
        ? Object.entries(properties).flatMap(([name, entry]) => settings(entry, `${path}.${name}`))
        : [path];
    };
    const all = groups.flatMap(group => settings(schema.properties?.[group], group));
    expect(all.length).toBeGreaterThan(40);
    const documented = rows('## Limits').map(([name]) =>
      name.replace(/^(drugs\.(?:localAnaesthetic|redose|holdHigh|holdLow|prophylaxisWindow))\..*/, '$1'),
    );
    expect(sorted([...new Set(documented)])).toEqual(sorted(all));
  });
});

describe('values and sources of the page are those of the code', () => {
  it.each(leaves(defaultLimits))('%s', (name, { value, source }) => {
    const row =
      rows('## Limits')
        .find(([setting]) => setting === name)?.[1]
        .split(' | ') ?? [];
    expect([row[0], row.at(-1)]).toEqual([value, source]);
  });

  it('a setting said to have no default has none', () => {
    const known = new Set(leaves(defaultLimits).map(([name]) => name));
    for (const [name, rest] of rows('## Limits'))
      expect(known.has(name), name).toBe(!rest.startsWith('none'));
  });

  it('what is from memory says that it is to be confirmed', () => {
    const sources = leaves(defaultLimits).map(([, { source }]) => source);
    const remembered = sources.filter(source => source.includes('from memory'));
    expect(remembered.length).toBeGreaterThan(20);
    for (const source of remembered) expect(source).toMatch(/; from memory, confirm against local policy$/);
  });
});
