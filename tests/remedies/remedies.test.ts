import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { catalogue } from '../../src/findings/catalogue.js';
import { type Finding, messageOf, remedyOf } from '../../src/findings/finding.js';
import { sampled } from '../support/sampled.js';
import { accepted, followed } from './follow.js';
import { checked, read, tried } from './outcome.js';
import { knownBad, misspelt, planted, type Wrong } from './records.js';
import type { Told } from './told.js';

/** Codes whose remedy names neither a field nor a value that can be written without judging, each with the reason. */
const judged = z
  .record(z.string(), z.string())
  .parse(parse(readFileSync(new URL('judged.yaml', import.meta.url), 'utf8')));

/** What is worth saying of a remedy that does not end its finding. */
const said = (found: Finding, name: string, because: string) =>
  `${name} @ ${found.path}\n  ${messageOf(found)}\n  ${remedyOf(found)}\n  ${because}`;

const followedCodes = new Set<string>();
const met = new Set<string>();

function follow(
  records: readonly Wrong[],
  look: typeof checked,
): { lies: string[]; findings: number; ways: number } {
  const seen = new Set<string>();
  const lies: string[] = [];
  let ways = 0;
  for (const { name, data, right } of records) {
    const before = look(data);
    for (const found of before) {
      const once = `${found.code} ${found.path} ${messageOf(found)}`;
      if (found.acknowledged || seen.has(once)) continue;
      seen.add(once);
      met.add(found.code);
      // Accepting goes the same way wherever a code stands: once is enough.
      const how = (told: Told) =>
        followedCodes.has(found.code) ? followed(told) : [...followed(told), ...accepted(told)];
      const outcome = tried({ data, found, right }, before, look, how);
      ways += outcome.ways;
      if (outcome.ways > 0) followedCodes.add(found.code);
      lies.push(...outcome.lies.map(lie => said(found, name, lie.because)));
    }
  }
  return { lies, findings: seen.size, ways };
}

const plants = planted();
const shown = new Set<string>();
/** Of the plants a part: the first of each code, and those whose turn it is. */
const part = sampled(
  'remedies of plants',
  plants,
  8,
  ({ codes = [] }) => codes.filter(code => !shown.has(code) && shown.add(code)).length > 0,
);
const rest = plants.filter(one => !part.includes(one));

describe('a remedy that is followed to the letter ends its finding and makes no new error', () => {
  it.each([
    ['planted mistakes', () => part, checked, 200],
    ['records that are known to be bad', knownBad, checked, 120],
    ['misspelt records', () => misspelt('ureteric-stent-tumour.yaml'), read, 200],
  ] as const)('%s', (_, records, look, atLeast) => {
    const { lies, ways } = follow(records(), look);
    expect(lies).toEqual([]);
    expect(ways).toBeGreaterThanOrEqual(atLeast);
  });

  it('what cannot be followed without judging is listed with the reason, and nothing else is', () => {
    expect(followedCodes.size).toBeGreaterThanOrEqual(60);
    const unjudged = () => [...met].filter(code => !followedCodes.has(code) && !Object.hasOwn(judged, code));
    // A code that could not be followed where it was met may be so in a plant that was not tried.
    const rank = ({ codes = [] }: Wrong) => (codes.some(code => unjudged().includes(code)) ? 0 : 1);
    const later = unjudged().length === 0 ? [] : [...rest].sort((a, b) => rank(a) - rank(b));
    for (const one of later) if (unjudged().length > 0) expect(follow([one], checked).lies).toEqual([]);
    expect(unjudged().sort()).toEqual([]);
    expect(
      Object.keys(judged).filter(code => followedCodes.has(code) || !Object.hasOwn(catalogue, code)),
    ).toEqual([]);
  });
});
