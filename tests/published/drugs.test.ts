import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { assessDrugs } from '../../src/clinical/drugs/drugs.js';
import { type LimitSettings, mergeLimits } from '../../src/clinical/limits.js';
import { caseText, recordOf } from '../support/case-text.js';
import { english } from '../support/english.js';

const EVENTS = 'events: [{ at: "09:30", do: puncture }, { at: "10:45", do: note }]';

/** Doses have tests of their own; each limit here is set by the test that is about it. */
const QUIET: LimitSettings = {
  doseFactor: 'off',
  prophylaxisWithin: 'off',
  fastingFood: 'off',
  fastingFluids: 'off',
};

const assess = (more: string, settings: LimitSettings = {}, patient = '  weight: 70 kg') =>
  assessDrugs(
    recordOf(caseText({ more: `${EVENTS}\n${more}`, patient })),
    mergeLimits(defaultLimits, { drugs: { ...QUIET, ...settings } }).drugs,
  );
const results = (more: string, settings: LimitSettings = {}, patient?: string) =>
  Object.fromEntries(
    assess(more, settings, patient).calculations.map(c => [
      c.key,
      english(c.result?.text) ?? `no: ${english(c.notAssessed)}`,
    ]),
  );
const codes = (more: string, settings: LimitSettings = {}, patient?: string) =>
  assess(more, settings, patient).findings.map(f => `${f.code} ${f.path}`);

const drug = (name: string, dose: string, purpose: string, at = '09:00', extra = '') =>
  `{ drug: ${name}, dose: ${dose}, route: intravenous, at: "${at}", for: ${purpose}${extra} }`;
const drugs = (...list: string[]) => `drugs: [${list.join(', ')}]`;

describe('totals', () => {
  it('adds doses of one drug and purpose, in the unit of the first', () => {
    expect(
      results(
        drugs(
          drug('Midazolam', '1 mg', 'sedation'),
          drug('midazolam', '0.5 mg', 'sedation', '09:10'),
          drug('Fentanyl', '50 µg', 'analgesia'),
          drug('Fentanyl', '0.1 mg', 'analgesia', '09:20'),
          drug('Paracetamol', '1 g', 'analgesia'),
          drug('Paracetamol', '500 mg', 'analgesia', '10:20'),
        ),
      ),
    ).toEqual({
      'total/midazolam/sedation': '1.5 mg',
      'total/fentanyl/analgesia': '150 µg',
      'total/paracetamol/analgesia': '1.5 g',
    });
  });

  it('adds units without a factor only when they are the same', () => {
    expect(
      results(drugs(drug('Calcium', '10 mmol', 'reversal'), drug('Calcium', '5 mmol', 'reversal'))),
    ).toEqual({
      'total/calcium/reversal': '15 mmol',
    });
    expect(
      results(drugs(drug('Calcium', '10 mmol', 'reversal'), drug('Calcium', '5 mL', 'reversal'))),
    ).toEqual({
      'total/calcium/reversal': 'no: the doses cannot be added',
    });
  });

  it('points out a reversal', () => {
    expect(codes(drugs(drug('Flumazenil', '0.2 mg', 'reversal')))).toEqual([
      'clinical.reversal-given drugs[0]',
    ]);
  });
});

// 1 % is 10 mg/mL; the limits here are those of an invented site.
describe('local anaesthetic by weight', () => {
  const lidocaine = (dose: string, strength: string, name = 'Lidocaine') =>
    drugs(
      `{ drug: ${name}, dose: ${dose}, strength: ${strength}, route: local infiltration, at: "09:25", for: local anaesthesia }`,
    );
  const key = 'local-anaesthetic/lidocaine';

  it.each([
    ['10 mL', '1 %', '1.43 mg/kg (100 mg)'],
    ['20 mL', '2 %', '5.71 mg/kg (400 mg)'],
    ['10 mL', '10 mg/mL', '1.43 mg/kg (100 mg)'],
    ['200 mg', '1 %', '2.86 mg/kg (200 mg)'],
    ['15 mL', '1 % with adrenaline', '2.14 mg/kg (150 mg)'],
  ])('%s of %s in 70 kg is %s', (dose, strength, text) => {
    expect(results(lidocaine(dose, strength))[key]).toBe(text);
  });

  const settings: LimitSettings = {
    localAnaesthetic: {
      lidocaine: { value: '4.5', source: 'our list' },
      'lidocaine with adrenaline': { value: '7', source: 'our list, mixture' },
    },
  };

  it.each([
    ['31.5 mL', '1 %', []],
    ['31.6 mL', '1 %', ['our list']],
    ['31.6 mL', '1 % with adrenaline 1:200 000', []],
    ['49.1 mL', '1 % with adrenaline 1:200 000', ['our list, mixture']],
    ['31.6 mL', '1 % without adrenaline', ['our list']],
  ])('%s of %s against 4.5 and 7 mg/kg', (dose, strength, sources) => {
    expect(assess(lidocaine(dose, strength), settings).findings.map(f => f.basis)).toEqual(sources);
  });

  it('has a limit by default, marked as from memory', () => {
    const found = assess(lidocaine('50 mL', '1 %'));
    expect(found.findings.map(f => [f.code, f.basis])).toEqual([
      ['clinical.local-anaesthetic', 'product information; from memory, confirm against local policy'],
    ]);
  });

  it('has none where the site takes it away, and says so', () => {
    const found = assess(lidocaine('45 mL', '1 %'), { localAnaesthetic: { lidocaine: 'off' } });
    expect(found.findings).toEqual([]);
    expect(english(found.calculations[0]?.basis)).toContain('no limit is set');
  });

  it.each([
    ['10 mL', 'plain', '  weight: 70 kg', 'give its strength'],
    ['10 mL', '1 %', '', 'the weight is not recorded'],
    ['"> 10 mL"', '1 %', '  weight: 70 kg', 'give its strength'],
    ['10 mL', '1 %', '  weight: 70000 kg', 'outside'],
  ])('says why not: %s of %s, %s', (dose, strength, patient, why) => {
    const found = assess(lidocaine(dose, strength), settings, patient);
    expect(english(found.calculations[0]?.notAssessed)).toContain(why);
    expect(found.findings).toEqual([]);
  });
});

describe('prophylaxis', () => {
  const cefazolin = (...times: string[]) =>
    drugs(...times.map(at => drug('Cefazolin', '2 g', 'prophylaxis', at)));
  const within: LimitSettings = { prophylaxisWithin: { value: '60', source: 'our policy' } };
  const redose: LimitSettings = { redose: { cefazolin: { value: '1', source: 'our policy' } } };

  it('counts from the last dose before access', () => {
    expect(results(cefazolin('07:00', '09:00'))).toEqual({ 'prophylaxis/cefazolin': '30 min before' });
  });

  it('is late only when no dose came before access; a further dose is not', () => {
    expect(codes(cefazolin('09:31'))).toEqual(['clinical.prophylaxis-late drugs[0].at']);
    expect(codes(cefazolin('09:00', '10:00'))).toEqual([]);
    expect(codes(cefazolin('09:30'))).toEqual([]);
  });

  it('is early beyond the limit of the site only', () => {
    expect(codes(cefazolin('08:29'))).toEqual([]);
    expect(codes(cefazolin('08:30'), within)).toEqual([]);
    expect(codes(cefazolin('08:29'), within)).toEqual(['clinical.prophylaxis-early drugs[0].at']);
  });

  it('is due again when the case lasts: 09:00 to the last event at 10:45', () => {
    expect(codes(cefazolin('09:00'), redose)).toEqual(['clinical.prophylaxis-redose drugs[0].at']);
    expect(codes(cefazolin('09:00', '10:00'), redose)).toEqual([]);
    expect(codes(cefazolin('09:00', '10:01'), redose)).toEqual(['clinical.prophylaxis-redose drugs[0].at']);
    expect(codes(cefazolin('09:45'), redose)).toEqual(['clinical.prophylaxis-late drugs[0].at']);
  });

  it('is not assessed without a time of access', () => {
    const record = recordOf(caseText({ more: cefazolin('09:31') }));
    const { calculations, findings } = assessDrugs(record, defaultLimits.drugs);
    expect([english(calculations[0]?.notAssessed), findings]).toEqual([
      'no event shows when access was made',
      [],
    ]);
  });
});

describe('last dose of drugs that affect bleeding', () => {
  const last = (name: string, at?: string) =>
    `before: { anticoagulants: [{ drug: ${name}${at ? `, lastDose: ${at}` : ''} }] }`;
  const hold: LimitSettings = { hold: { enoxaparin: { value: '12', source: 'our hold table' } } };

  it.each([
    ['2024-05-13T21:30', '12.0 h', []],
    ['2024-05-13T21:31', '11.9 h', ['clinical.hold-short before.anticoagulants[0].lastDose']],
    // A day without a time counts from its end.
    ['2024-05-12', 'at least 33.5 h', []],
    ['2024-05-13', 'at least 9.5 h', ['clinical.hold-short before.anticoagulants[0].lastDose']],
  ])('dose %s, access 09:30: %s', (at, text, expected) => {
    expect(results(last('Enoxaparin sodium', at), hold)['last-dose/1']).toBe(text);
    expect(codes(last('Enoxaparin sodium', at), hold)).toEqual(expected);
  });

  it('counts through the change to summer time: 31 March 2024, Lisbon', () => {
    const text = caseText({
      more: `events: [{ at: "09:30", do: puncture }]\n${last('Enoxaparin', '2024-03-30T21:30')}`,
    }).replace('date: 2024-05-14', 'date: 2024-03-31');
    const { calculations } = assessDrugs(recordOf(text), defaultLimits.drugs);
    // From 21:30 at +00:00 to 09:30 at +01:00 are 11 hours.
    expect(english(calculations[0]?.result?.text)).toBe('11.0 h');
  });

  it('shows the interval without a row in the table, and says so', () => {
    const found = assess(last('Apixaban', '2024-05-13T20:00'), hold);
    expect(found.findings).toEqual([]);
    expect([english(found.calculations[0]?.result?.text), english(found.calculations[0]?.basis)]).toEqual([
      '13.5 h',
      'arithmetic; the hold table has no row for it',
    ]);
  });

  it.each([
    [undefined, 'the last dose is not recorded', ['clinical.hold-unknown before.anticoagulants[0]']],
    ['2024-05', 'not recorded to the day', []],
    ['2024-05-14', 'its time is not recorded', []],
    ['2024-05-14T12:00', 'after access', []],
  ])('says why not: %s', (at, why, expected) => {
    expect(results(last('Enoxaparin', at), hold)['last-dose/1']).toContain(why);
    expect(codes(last('Enoxaparin', at), hold)).toEqual(expected);
  });
});

describe('fasting', () => {
  const eaten = (food: string, fluids: string, kind = 'moderate sedation') =>
    `sedation: { kind: ${kind}, start: "09:20" }\nbefore: { fasting: { food: ${food}, clearFluids: ${fluids} } }`;
  const limits: LimitSettings = {
    fastingFood: { value: '6', source: 'our policy' },
    fastingFluids: { value: '2', source: 'our policy' },
  };

  it('gives the hours, and compares with the limits of the site', () => {
    const more = eaten('2024-05-14T03:20', '2024-05-14T07:21');
    expect(results(more)).toEqual({ 'fasting/food': '6.0 h', 'fasting/clear fluids': '1.9 h' });
    expect(codes(more)).toEqual([]);
    expect(codes(more, limits)).toEqual(['clinical.fasting before.fasting.clearFluids']);
  });

  it('does not matter under local anaesthesia only', () => {
    expect(results(eaten('2024-05-14T09:00', '2024-05-14T09:00', 'local anaesthesia only'), limits)).toEqual(
      {},
    );
  });

  it('says what is not recorded only where a limit is set', () => {
    const more = 'sedation: { kind: moderate sedation, start: "09:20" }';
    expect(codes(more)).toEqual([]);
    expect(codes(more, limits)).toEqual([
      'clinical.fasting-not-recorded before.fasting',
      'clinical.fasting-not-recorded before.fasting',
    ]);
  });

  it('does not count from a day without a time', () => {
    expect(results(eaten('2024-05-13', '2024-05-13'))['fasting/food']).toContain('not recorded');
  });
});

describe('allergy against what was given', () => {
  const given = (allergy: string, name: string) =>
    codes(`before: { allergies: [{ to: ${allergy} }] }\n${drugs(drug(name, '1 g', 'other'))}`);
  const contrast = (allergy: string, agent: string) =>
    codes(
      `before: { allergies: [{ to: ${allergy} }] }\ncontrast: [{ agent: ${agent}, volume: 10 mL, route: intravenous }]`,
    );

  it.each([
    ['Cefazolin', 'Cefazolin sodium'],
    ['penicillin', 'Amoxicillin'],
    ['Penicillins', 'Piperacillin with tazobactam'],
    ['cephalosporins', 'Ceftriaxone'],
    ['local anaesthetics', 'Lidocaine'],
  ])('%s meets %s', (allergy, name) => {
    expect(given(allergy, name)).toEqual(['clinical.allergy-given drugs[0]']);
  });

  it.each([
    ['Penicillin', 'Ciprofloxacin'],
    ['Codeine', 'Fentanyl'],
    ['acetylsalicylic acid', 'Tranexamic acid'],
    ['Latex', 'Midazolam'],
    ['Morphine sulfate', 'Magnesium sulfate'],
  ])('%s does not meet %s', (allergy, name) => {
    expect(given(allergy, name)).toEqual([]);
  });

  // Likelihoods: Picard et al., J Allergy Clin Immunol Pract 2019;7:2722; from memory.
  it.each([
    ['Penicillin', 'Ceftriaxone'],
    ['Amoxicillin', 'Cefalexin'],
    ['Morphine', 'Oxycodone'],
    ['Lignocaine', 'Bupivacaine'],
    ['Fish', 'Protamine sulphate'],
  ])('%s may cross-react with %s', (allergy, name) => {
    expect(given(allergy, name)).toEqual(['clinical.allergy-cross drugs[0]']);
  });

  it.each([
    ['Lignocaine', 'Lidocaine 1 % with adrenaline 1:200000'],
    ['NSAIDs', 'Ketorolac'],
    ['Heparin', 'Enoxaparin'],
    ['chlorhexidine', 'Chlorhexidine gluconate'],
  ])('%s meets %s by any name', (allergy, name) => {
    expect(given(allergy, name)).toEqual(['clinical.allergy-given drugs[0]']);
  });

  it('does not meet what is denied', () => {
    expect(given('not penicillin', 'Amoxicillin')).toEqual([]);
  });

  it.each([
    ['Iodinated contrast', 'iohexol', 1],
    ['X-ray dye', 'iopamidol', 1],
    ['Iodine', 'ethiodised oil', 1],
    ['Iohexol', 'iopromide', 1],
    ['Contrast media', 'iohexol', 1],
    ['Contrast media', 'gadobutrol', 1],
    ['Iodinated contrast', 'gadobutrol', 0],
    ['Gadolinium contrast', 'iohexol', 0],
    ['Gadolinium', 'gadobutrol', 1],
    ['Iohexol', 'iohexol', 1],
    ['Contrast media', 'carbon dioxide', 0],
  ])('%s against %s', (allergy, agent, count) => {
    expect(contrast(allergy, agent)).toHaveLength(count);
  });
});
