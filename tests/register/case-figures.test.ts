import { describe, expect, it } from 'vitest';
import { parseCase } from '../../src/record/parse.js';
import { caseFigures } from '../../src/register/case-figures.js';
import { drainCase } from '../support/drain-life.js';

function figuresOf(change: (text: string) => string) {
  const { record } = parseCase(change(drainCase({ id: 'A', date: '2024-01-10', placed: 'L1' })));
  if (!record) throw new Error('the record cannot be read');
  return caseFigures(record);
}
const with_ = (from: string, to: string) => figuresOf(text => text.replace(from, to));

describe('what a case tells for measures', () => {
  it('is kind, complications and dose, in words of the tables', () => {
    expect(figuresOf(text => text)).toEqual({
      kinds: ['nephrostomy'],
      status: 'completed',
      complications: 'none',
      kermaArea: 'none',
    });
    expect(with_('kind: nephrostomy }', 'kind: what Dr Pekwell does }').kinds).toEqual([]);
  });

  it('tells none from not recorded, and a grade from one that is not of its scale', () => {
    expect(with_('complications: none\n', '').complications).toBe('not recorded');
    const graded = (grade: string) =>
      with_(
        'complications: none',
        `complications: [{ what: Bleeding, grade: { scale: Clavien-Dindo, grade: ${grade} } }, { what: Pain }]`,
      ).complications;
    expect(graded('IIIa')).toEqual(['Clavien-Dindo IIIa', 'ungraded']);
    expect(graded('bad')).toEqual(['ungraded', 'ungraded']);
  });

  it('has the dose in one unit, and takes a bound for no figure', () => {
    const dose = (text: string) =>
      with_('radiation: none', `radiation: { kermaAreaProduct: "${text}" }`).kermaArea;
    expect(dose('4.20 Gy·cm2')).toBe('4.2');
    expect(dose('420 cGy·cm2')).toBe('4.2');
    expect(dose('< 5 Gy·cm2')).toBe('not recorded');
    expect(with_('radiation: none\n', '').kermaArea).toBe('not recorded');
  });
});
