import { describe, expect, it } from 'vitest';
import { checkCase } from '../../../src/pipeline/check.js';
import { caseSystemOf } from '../../../src/pipeline/settings.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { drainCase } from '../../support/drain-life.js';
import { exampleFiles, exampleText } from '../../support/examples.js';

const own = caseSystemOf(unconfiguredSite);
const told = (text: string) =>
  checkCase(text, unconfiguredSite)
    .findings.filter(({ code }) => code === 'clinical.own-case')
    .map(({ path }) => path);
const drain = (system: string, value: string) =>
  drainCase({
    ...{ id: 'B', date: '2024-02-01', before: 'L1', placed: 'L2' },
    carried: `date: 2024-01-10, case: { system: "${system}", value: ${value} }`,
  });

describe('a case that names itself as an earlier one', () => {
  it('is told of a device, an earlier attempt and earlier radiation', () => {
    const id = `{ system: "${own}", value: B }`;
    const text = drain(own, 'B')
      .replace(
        'radiation: none',
        `radiation: { fluoroscopyTime: 4 min, earlier: [{ case: ${id}, date: 2024-01-10 }] }`,
      )
      .replace(
        'sedation: none',
        `before: { earlierAttempts: [{ case: ${id}, what: First nephrostomy }] }\nsedation: none`,
      );
    expect(told(text).toSorted()).toEqual([
      'before.earlierAttempts[0].case',
      'devices.old.carried.case',
      'radiation.earlier[0].case',
    ]);
  });

  it.each([
    ['another number', own, 'A'],
    ['the same number of another hospital', 'https://elsewhere.example/cases', 'B'],
  ])('is not told of %s', (_, system, value) => {
    expect(told(drain(system, value))).toEqual([]);
  });

  it('is none of the examples', () => {
    expect(exampleFiles.flatMap(file => told(exampleText(file)))).toEqual([]);
  });
});
