import { describe, expect, it } from 'vitest';
import { type ExactObject, isExactObject, parseExact } from '../../../src/delivery/answer/exact-json.js';
import {
  compareOrders,
  comparePatients,
  comparePeriod,
  compareStatus,
} from '../../../src/delivery/patient/compare.js';

function exact(value: object): ExactObject {
  const read = parseExact(JSON.stringify(value));
  if (!isExactObject(read)) throw new Error('no object');
  return read;
}
const START = '2024-11-07T11:05:00+03:00';
const ours = exact({
  identifier: [{ system: 'urn:a', value: '1' }],
  name: [{ text: 'Wambugu Starling Odera' }],
  gender: 'male',
  birthDate: '1990-07-19',
});
const there = { name: [{ family: 'Odera', given: ['Wambugu'] }], gender: 'male', birthDate: '1990-07-19' };
const told = (theirs: object) =>
  comparePatients(ours, exact(theirs), START).map(d => `${d.field} ${d.agreement}`);

describe('a patient', () => {
  it.each<[string, object, string[]]>([
    ['who agrees', there, []],
    ['with day and month swapped', { ...there, birthDate: '1990-19-07' }, ['birthDate differs']],
    ['with one digit otherwise', { ...there, birthDate: '1990-07-18' }, ['birthDate differs']],
    ['of whom only the year is known', { ...there, birthDate: '1990' }, []],
    ['of another year alone', { ...there, birthDate: '1991' }, ['birthDate differs']],
    ['without a birth date', { ...there, birthDate: undefined }, ['birthDate not-compared']],
    ['of the other sex', { ...there, gender: 'female' }, ['sex differs']],
    ['of other sex', { ...there, gender: 'other' }, ['sex near']],
    ['of unknown sex', { ...there, gender: 'unknown' }, ['sex not-compared']],
    ['with another name', { ...there, name: [{ text: 'Ilse Branquinho' }] }, ['name differs']],
    ['with a name as text', { ...there, name: [{ text: 'ODERA WAMBUGU' }] }, []],
    [
      'with the name of before beside a new one',
      { ...there, name: [{ text: 'Wambugu Hallowell' }, { use: 'old', text: 'Wambugu Odera' }] },
      [],
    ],
    ['without a name', { ...there, name: undefined }, ['name not-compared']],
    ['with a name that is absent', { ...there, name: [{ extension: [] }] }, ['name not-compared']],
    ['with a name that is no list', { ...there, name: 'Odera' }, ['name not-compared']],
    ['who had died', { ...there, deceasedDateTime: '2024-11-06' }, ['deceased differs']],
    ['who died that day', { ...there, deceasedDateTime: '2024-11-07' }, []],
    ['who died an hour before', { ...there, deceasedDateTime: '2024-11-07T07:05:00Z' }, ['deceased differs']],
    ['who died afterwards', { ...there, deceasedDateTime: '2024-11-09' }, []],
    ['who died, nobody says when', { ...there, deceasedBoolean: true }, ['deceased not-compared']],
    ['who lives', { ...there, deceasedBoolean: false }, []],
    [
      'with another number of the same kind',
      { ...there, identifier: [{ system: 'urn:a', value: '2' }] },
      ['identifier near'],
    ],
    ['with numbers of other kinds', { ...there, identifier: [{ system: 'urn:b', value: '2' }] }, []],
  ])('%s', (_who, theirs, expected) => {
    expect(told(theirs)).toEqual(expected);
  });

  it('of whom the record says nothing is not compared with anything', () => {
    expect(comparePatients(exact({}), exact({ ...there, birthDate: '1900-01-01' }), undefined)).toEqual([]);
  });

  it('is shown in one line of bounded length', () => {
    const name = `<script>\n${'x'.repeat(10_000)}`;
    const [shown] = comparePatients(ours, exact({ ...there, name: [{ text: name }] }), START);
    expect(shown?.held).toMatch(/^<script> x{100,120}$/);
    expect(shown?.held.length).toBe(120);
  });
});

describe('an encounter and an order', () => {
  it.each<[string, object, string[]]>([
    ['around the case', { start: '2024-11-06', end: '2024-11-08' }, []],
    ['that day', { start: '2024-11-07', end: '2024-11-07' }, []],
    ['still open', { start: '2024-11-07T06:00:00Z' }, []],
    ['entered two hours late', { start: '2024-11-07T10:05:00Z' }, ['near']],
    ['of a week before', { start: '2024-10-30', end: '2024-10-31' }, ['differs']],
    ['of next month', { start: '2024-12-01' }, ['differs']],
    ['without dates', {}, ['not-compared']],
  ])('period %s', (_what, period, expected) => {
    expect(comparePeriod(exact({ period }), START).map(d => d.agreement)).toEqual(expected);
    expect(comparePeriod(exact({ actualPeriod: period }), START).map(d => d.agreement)).toEqual(expected);
  });

  it.each([
    ['finished', []],
    ['cancelled', ['near']],
    ['entered-in-error', ['differs']],
  ])('status %s', (status, expected) => {
    expect(compareStatus('encounter', exact({ status })).map(d => d.agreement)).toEqual(expected);
  });

  it('with another accession number contradicts', () => {
    const order = exact({ identifier: [{ system: 'urn:acc', value: 'A-1' }] });
    const other = exact({ identifier: [{ system: 'urn:acc', value: 'A-2' }] });
    expect(compareOrders(order, other)).toMatchObject([{ field: 'order.identifier', agreement: 'differs' }]);
    expect([
      ...compareOrders(order, order),
      ...compareOrders(order, exact({})),
      ...compareOrders(undefined, other),
    ]).toEqual([]);
  });
});
