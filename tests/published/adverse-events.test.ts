import { describe, expect, it } from 'vitest';
import {
  cirse2017,
  cirse2025,
  clavienDindo,
  type Grade,
  sir2017,
} from '../../src/clinical/outcome/adverse-event-scales.js';
import { assessComplications } from '../../src/clinical/outcome/adverse-events.js';
import { say } from '../../src/findings/say.js';
import type { Complication } from '../../src/record/schema/record.js';
import { caseText, recordOf } from '../support/case-text.js';
import { english } from '../support/english.js';

type Said = Partial<Pick<Complication, 'treatment' | 'stay' | 'harm'>>;
const event = (said: Said): Complication => ({ what: { text: 'Bleeding', codes: [] }, ...said });
const said = (treatment: string, stay: string, harm: string) => event({ treatment, stay, harm } as Said);
const text = (grade: Grade) =>
  'grade' in grade ? grade.grade : (grade.oneOf?.join('|') ?? `? ${say(grade.why)}`);

// Filippiadis et al., CVIR 2017;40:1141.
describe('CIRSE 2017', () => {
  it.each([
    ['same session', 'not prolonged', 'none', '1'],
    ['none', 'prolonged under 24 hours', 'none', '2'],
    ['none', 'prolonged under 48 hours', 'temporary', '2'],
    ['none', 'prolonged over 48 hours', 'none', '3'],
    ['drugs', 'not prolonged', 'none', '3'],
    ['transfusion', 'prolonged under 24 hours', 'none', '3'],
    ['intensive care', 'prolonged over 48 hours', 'temporary', '3'],
    ['intervention', 'prolonged over 48 hours', 'permanent mild', '4'],
    ['none', 'not prolonged', 'permanent severe', '5'],
    ['intensive care', 'prolonged over 48 hours', 'death', '6'],
  ])('%s, %s, harm %s is %s', (treatment, stay, harm, grade) => {
    expect(text(cirse2017(said(treatment, stay, harm)))).toBe(grade);
  });
});

// Modified CIRSE scale (CVIR 2026;49:2): grade 1 is split by success, 3 by length of stay. Which letter is which: from memory.
describe('CIRSE 2025', () => {
  it.each([
    ['successful', 'same session', '1a'],
    ['unsuccessful', 'same session', '1b'],
    ['partially successful', 'same session', '1a|1b'],
    [undefined, 'same session', '1a|1b'],
    ['successful', 'drugs', '3a|3b'],
  ] as const)('%s outcome, %s is %s', (overall, treatment, grade) => {
    expect(text(cirse2025(said(treatment, 'not prolonged', 'none'), overall))).toBe(grade);
  });
});

// Khalilzadeh et al., JVIR 2017;28:1432: five levels, from memory.
describe('SIR 2017, from memory', () => {
  it.each([
    ['none', 'not prolonged', 'none', '1'],
    ['nominal', 'not prolonged', 'none', '1'],
    ['drugs', 'not prolonged', 'none', '1|2'],
    ['same session', 'not prolonged', 'none', '1|2'],
    ['transfusion', 'not prolonged', 'none', '2'],
    ['intervention', 'prolonged under 24 hours', 'none', '2'],
    ['none', 'prolonged under 24 hours', 'none', '2'],
    ['none', 'prolonged under 48 hours', 'none', '3'],
    ['intervention under general anaesthesia', 'not prolonged', 'none', '3'],
    ['intensive care', 'prolonged over 48 hours', 'temporary', '3|4'],
    ['none', 'not prolonged', 'permanent severe', '4'],
    ['none', 'not prolonged', 'death', '5'],
  ])('%s, %s, harm %s is %s', (treatment, stay, harm, grade) => {
    expect(text(sir2017(said(treatment, stay, harm)))).toBe(grade);
  });
});

// Dindo et al., Ann Surg 2004;240:205.
describe('Clavien-Dindo', () => {
  it.each([
    ['nominal', 'none', 'I'],
    ['drugs', 'none', 'II'],
    ['transfusion', 'none', 'II'],
    ['intervention', 'temporary', 'IIIa'],
    ['intervention under general anaesthesia', 'none', 'IIIb'],
    ['intensive care', 'none', 'IVa|IVb'],
    ['intensive care', 'death', 'V'],
  ])('%s, harm %s is %s', (treatment, harm, grade) => {
    expect(text(clavienDindo(said(treatment, 'not prolonged', harm)))).toBe(grade);
  });
});

describe('what is not recorded', () => {
  it.each([cirse2017, sir2017, clavienDindo])('%o gives no grade without the consequences', grade => {
    expect(text(grade(event({})))).toContain('not recorded: treatment');
    expect(text(grade(event({ treatment: 'none' })))).toContain('harm');
  });

  it('gives death and permanent harm without them', () => {
    expect(text(cirse2017(event({ harm: 'death' })))).toBe('6');
    expect(text(clavienDindo(event({ harm: 'death' })))).toBe('V');
  });
});

describe('the grade that was written', () => {
  const assess = (grade: string, rest = 'treatment: drugs, stay: not prolonged, harm: none') =>
    assessComplications(recordOf(caseText({ more: `complications: [{ what: Fever, ${grade}${rest} }]` })));
  const codes = (grade: string, rest?: string) => assess(grade, rest).findings.map(f => f.code);

  it('is asked for', () => {
    expect(codes('')).toEqual(['clinical.grade-missing']);
  });

  it.each(['grade: { scale: CIRSE 2017, grade: 3 }, ', 'grade: { scale: CIRSE 2017, grade: Grade 3 }, '])(
    '%s agrees',
    grade => {
      expect(codes(grade)).toEqual([]);
    },
  );

  it('is compared, on its own scale only', () => {
    const found = assess('grade: { scale: CIRSE 2017, grade: 2 }, ').findings;
    expect(found.map(f => [f.code, english(f.params['computed'])])).toEqual([
      ['clinical.grade-differs', '3'],
    ]);
  });

  it('is compared with each of the grades that are left open', () => {
    expect(codes('grade: { scale: CIRSE 2025, grade: 3b }, ')).toEqual([]);
    expect(codes('grade: { scale: CIRSE 2025, grade: 2 }, ')).toEqual(['clinical.grade-differs']);
  });

  it('leaves the suffix of a lasting disability aside on Clavien-Dindo', () => {
    expect(codes('grade: { scale: Clavien-Dindo, grade: IId }, ')).toEqual([]);
  });

  it('is not questioned when the consequences are not recorded', () => {
    expect(codes('grade: { scale: CIRSE 2017, grade: 5 }, ', 'action: none')).toEqual([]);
  });

  it('works out the scales of the site, and the one that was written', () => {
    const record = recordOf(
      caseText({
        more: 'complications: [{ what: Fever, grade: { scale: SIR 2017, grade: 1 }, treatment: none, stay: not prolonged, harm: none }]',
      }),
    );
    expect(assessComplications(record, ['Clavien-Dindo']).calculations.map(c => c.key)).toEqual([
      'grade/1/Clavien-Dindo',
      'grade/1/SIR 2017',
    ]);
  });
});
