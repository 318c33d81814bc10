import { describe, expect, it } from 'vitest';
import { foundAllergies, reactionFindings } from '../../../src/clinical/drugs/reactions.js';
import { remedyOf } from '../../../src/findings/finding.js';
import { parseCaseData } from '../../../src/record/parse.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import { reactionOf, tellsReaction } from '../../../src/trade/reactions.js';

/** A case with the given drugs, contrast and complications, and nothing else to speak of. */
function caseWith(facts: Record<string, unknown>): CaseRecord {
  const { record, findings } = parseCaseData({
    casetally: 1,
    case: { id: 'R-1', status: 'completed', date: '2024-06-11', timeZone: 'Europe/Lisbon', kind: 'biopsy' },
    patient: { identifiers: [{ system: 'https://ids.hospital.example/patients', value: 'P-1' }] },
    team: [{ key: 'op', role: 'operator', name: 'Dr Ivo Calder' }],
    indication: { text: 'Mass' },
    report: { status: 'preliminary', author: 'op' },
    ...facts,
  });
  if (!record) throw new Error(JSON.stringify(findings));
  return record;
}

const drug = (name: string, reaction?: boolean) => ({
  drug: name,
  dose: '2 g',
  route: 'intravenous',
  at: '09:00',
  ...(reaction !== undefined && { reaction }),
});
const contrast = (agent: string, reaction?: string) => ({
  agent,
  volume: '40 mL',
  route: 'intravenous',
  ...(reaction !== undefined && { reaction }),
});
const names = (record: CaseRecord) => foundAllergies(record).map(({ to }) => to?.text);
const codes = (record: CaseRecord) => reactionFindings(record).map(({ code, path }) => `${code} ${path}`);

describe('a reaction as people write it', () => {
  it.each([
    ['none', false],
    ['None seen', false],
    ['no', false],
    ['no reaction; patient well', false],
    ['nil', false],
    ['no immediate reaction, wheals after 20 minutes', true],
    ['warm feeling', false],
    ['feeling of warmth, metallic taste', false],
    ['feeling of warmth, then hives', true],
    ['wheals, no hypotension', true],
    ['urticaria without hypotension', true],
    ['red face and a tight chest', true],
    ['mild', true],
  ])('%s', (text, is) => {
    expect(tellsReaction(text)).toBe(is);
  });

  it.each([
    ['Anaphylaxis', true],
    ['anaphylactic shock after cefazolin', true],
    ['severe allergic reaction to iopamidol', true],
    ['Contrast reaction', true],
    ['reaction to contrast medium', true],
    ['urticaria (trunk)', true],
    ['rash after cefazolin', true],
    ['rash', false],
    ['no allergic reaction', false],
    ['allergic reaction excluded', false],
    ['vasovagal reaction', false],
    ['contrast extravasation', false],
    ['contrast-induced nephropathy', false],
    ['hypotension after propofol', false],
    ['reaction to manipulation', false],
    ['pneumothorax', false],
  ])('complication: %s', (text, is) => {
    expect(reactionOf(text, []) !== undefined).toBe(is);
  });

  it('is known by its code alone', () => {
    // SNOMED CT Global Patient Set: 39579001 Anaphylaxis (disorder).
    const anaphylaxis = { system: 'http://snomed.info/sct', code: '39579001' };
    expect(reactionOf('circulatory event', [anaphylaxis])?.row.name).toBe('anaphylaxis');
    expect(reactionOf('circulatory event', [{ ...anaphylaxis, code: '36118008' }])).toBeUndefined();
  });
});

describe('allergies that the case showed', () => {
  it('joins the marked drug and the complication that tells of it', () => {
    const record = caseWith({
      drugs: [drug('Cefazolin', true), drug('Fentanyl')],
      complications: [{ what: 'Anaphylaxis', at: '09:04', severity: 'severe' }],
    });
    expect(foundAllergies(record)).toMatchObject([
      {
        to: { text: 'Cefazolin' },
        signs: ['Anaphylaxis'],
        severity: 'severe',
        certainty: 'unconfirmed',
        path: 'drugs[0]',
        given: [{ list: 'drugs', index: 0 }],
        complications: [0],
      },
    ]);
    expect(codes(record)).toEqual([]);
  });

  it('tells one marked drug from another by what the complication names', () => {
    const record = caseWith({
      drugs: [drug('cefazolin', true), drug('protamine', true)],
      complications: [{ what: 'anaphylaxis to protamine' }, { what: 'urticaria', suspect: 'cefazolin' }],
    });
    expect(foundAllergies(record).map(({ to, signs }) => [to?.text, ...signs])).toEqual([
      ['cefazolin', 'urticaria'],
      ['protamine', 'anaphylaxis to protamine'],
    ]);
  });

  it('is one allergy for a drug given twice, and for contrast under two names', () => {
    const record = caseWith({
      drugs: [drug('lignocaine', true), drug('lidocaine', true)],
      complications: [{ what: 'allergic reaction' }],
    });
    expect(names(record)).toEqual(['lignocaine']);
  });

  it('finds the contrast of a contrast reaction, and says so when nothing is marked', () => {
    const record = caseWith({
      contrast: [contrast('iopamidol')],
      complications: [{ what: 'contrast reaction' }],
    });
    expect(names(record)).toEqual(['iopamidol']);
    expect(codes(record)).toEqual(['clinical.complication-without-reaction complications[0].what']);
  });

  it('names the place of the mark where the complication says what is suspected', () => {
    const remedies = (complication: object) =>
      reactionFindings(
        caseWith({
          drugs: [drug('midazolam'), drug('ceftriaxone')],
          contrast: [contrast('iopamidol')],
          complications: [complication],
        }),
      ).map(found => remedyOf(found));
    expect(remedies({ what: 'anaphylaxis', suspect: 'ceftriaxone' })).toEqual([
      'Set drugs[1].reaction to yes.',
    ]);
    expect(remedies({ what: 'hives', suspect: 'iopamidol' })).toEqual([
      'Describe it in contrast[0].reaction.',
    ]);
    expect(remedies({ what: 'anaphylaxis' })[0]).toContain("or name what is suspected in 'suspect'");
  });

  it('knows a cause by its family', () => {
    const record = caseWith({
      drugs: [drug('cefazolin', true), drug('amoxicillin', true)],
      contrast: [contrast('iopamidol', 'hives')],
      complications: [{ what: 'urticaria', suspect: 'X-ray dye' }, { what: 'rash after penicillin' }],
    });
    expect(foundAllergies(record).map(({ to, complications }) => [to?.text, ...complications])).toEqual([
      ['cefazolin'],
      ['amoxicillin', 1],
      ['iopamidol', 0],
    ]);
    expect(codes(record)).toEqual(['clinical.reaction-without-complication drugs[0].reaction']);
  });

  it('leaves the substance open where nobody names it', () => {
    const record = caseWith({
      drugs: [drug('cefazolin'), drug('fentanyl')],
      complications: [{ what: 'anaphylaxis' }],
    });
    expect(foundAllergies(record)).toMatchObject([{ given: [], complications: [0] }]);
    expect(names(record)).toEqual([undefined]);
  });

  it('takes latex as suspected without a drug to mark', () => {
    const record = caseWith({
      drugs: [drug('fentanyl')],
      complications: [{ what: 'urticaria', suspect: 'latex', certainty: 'confirmed' }],
    });
    expect(foundAllergies(record)).toMatchObject([
      { to: { text: 'latex' }, certainty: 'confirmed', given: [] },
    ]);
    expect(codes(record)).toEqual([]);
  });

  it.each([
    ['none', 'none', 'none'],
    [[drug('cefazolin', false)], [contrast('iopamidol', 'none')], 'none'],
    [[drug('cefazolin')], [contrast('iopamidol', 'warm feeling')], [{ what: 'pneumothorax' }]],
  ])('finds none where none was (%#)', (drugs, given, complications) => {
    const record = caseWith({ drugs, contrast: given, complications });
    expect(foundAllergies(record)).toEqual([]);
    expect(codes(record)).toEqual([]);
  });

  it.each([
    [{ drugs: [drug('cefazolin', true)], complications: 'none' }, 'drugs[0].reaction'],
    [{ drugs: [drug('cefazolin', true)] }, 'drugs[0].reaction'],
    [
      { contrast: [contrast('iopamidol', 'wheals')], complications: [{ what: 'haematoma' }] },
      'contrast[0].reaction',
    ],
  ])('misses the complication of a marked reaction (%#)', (facts, path) => {
    expect(codes(caseWith(facts))).toEqual([`clinical.reaction-without-complication ${path}`]);
  });

  it('accepts a complication of any name that names the drug', () => {
    const record = caseWith({
      drugs: [drug('propofol', true)],
      complications: [{ what: 'hypotension after propofol' }],
    });
    expect(codes(record)).toEqual([]);
  });
});
