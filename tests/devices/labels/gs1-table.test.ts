import { describe, expect, it } from 'vitest';
import { gs1Table, identifierAt } from '../../../src/devices/labels/gs1-table.js';

const fixed = (length: number) => ({ type: 'N', min: length, max: length, optional: false });
const upTo = (type: string, max: number) => ({ type, min: 1, max, optional: false });
/** What most identifiers have in common. */
const plain = { requires: [], excludes: [] };
const anItem = ['01', '02', '03', '8006', '8026'];
const aMeasure = ['30', '31nn', '32nn', '35nn', '36nn'];

// Source: GS1 General Specifications, application identifiers; GS1 Barcode Syntax Dictionary.
describe('what the standard says of application identifiers', () => {
  it.each<{ ai: string; name: string; [fact: string]: unknown }>([
    {
      ...plain,
      ai: '01',
      name: 'device identifier (GTIN)',
      components: [{ ...fixed(14), check: 'csum' }],
      min: 14,
      max: 14,
      excludes: ['02', '255', '37'],
    },
    { ...plain, ai: '10', name: 'lot', components: [upTo('X', 20)], min: 1, max: 20, requires: [anItem] },
    {
      ...plain,
      ai: '17',
      name: 'expiry date',
      components: [{ ...fixed(6), check: 'yymmd0' }],
      min: 6,
      max: 6,
      requires: [['01', '02', '03', '255', '8006', '8026']],
    },
    {
      ...plain,
      ai: '250',
      name: 'secondary serial number',
      components: [upTo('X', 30)],
      min: 1,
      max: 30,
      requires: [['01', '8006'], ['21']],
    },
    {
      ...plain,
      ai: '253',
      name: 'document type',
      components: [
        { ...fixed(13), check: 'csum' },
        { ...upTo('X', 17), optional: true },
      ],
      min: 13,
      max: 30,
    },
    {
      ...plain,
      ai: '3932',
      name: 'price',
      components: [fixed(3), upTo('N', 15)],
      min: 4,
      max: 18,
      requires: [aMeasure],
    },
    {
      ...plain,
      ai: '4322',
      name: 'delivery flag',
      components: [{ ...fixed(1), check: 'yesno' }],
      min: 1,
      max: 1,
      requires: [['00']],
    },
    {
      ...plain,
      ai: '4326',
      name: 'release date',
      components: [{ ...fixed(6), check: 'yymmdd' }],
      min: 6,
      max: 6,
      requires: [['00']],
    },
    { ...plain, ai: '8010', name: 'component', components: [upTo('Y', 30)], min: 1, max: 30 },
  ])('($ai) is as it is written there', facts => {
    expect(identifierAt(facts.ai, 0)).toStrictEqual(facts);
  });

  it('the first and the last of each range are there', () => {
    const ends =
      '3100 3105 3160 3165 3290 3295 3695 3900 3909 3919 3940 3943 3950 3955 410 413 414 417 4300 4301 4306 7030 7039 7230 7239 710 717 91 99';
    expect(ends.split(' ').filter(ai => gs1Table.get(ai)?.ai !== ai)).toEqual([]);
  });

  it('nothing else is', () => {
    const beside = '0 04 3106 3166 3170 3296 3944 3956 418 4299 7041n 718 8021 9';
    expect(beside.split(' ').filter(ai => gs1Table.has(ai))).toEqual([]);
    expect(gs1Table.size).toBe(536);
  });
});
