import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import { tableRow } from '../../src/clinical/bleeding/table.js';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { describeDevices } from '../../src/devices/details.js';
import { checkSizes } from '../../src/devices/sizes/check.js';
import { messageOf } from '../../src/findings/finding.js';
import { caseKinds } from '../../src/trade/cases/table.js';
import { deviceKinds } from '../../src/trade/devices/table.js';
import { caseText, recordOf } from '../support/case-text.js';
import { english } from '../support/english.js';

const findings = (more: string, kind = 'nephrostomy', patient = '') =>
  assess(recordOf(caseText({ kind, more, patient }))).findings;
const codes = (more: string, kind?: string) => findings(more, kind).map(f => f.code);

describe('a rule holds for every name of a row', () => {
  const ureteric = deviceKinds.filter(row => row.traits.includes('ureteric') && row.family === 'stent');
  it.each(ureteric.flatMap(row => [row.name, ...row.aliases]))('length of the ureter: %s', name => {
    const more = `targets: { u: { what: ureter } }
devices: { s: { kind: "${name}", size: 7 Fr x 20 cm } }
events: [{ at: "09:10", do: insert, device: s, across: u }]
outcome: { overall: successful, measurements: [{ what: ureteric length, value: 24.5, unit: cm, target: u }] }`;
    const record = recordOf(caseText({ kind: 'ureteric stent', more }));
    const found = checkSizes(record, describeDevices(record).devices).findings.map(f => f.code);
    expect(found).toContain('size.ureteric-short');
  });

  it('class of bleeding: every name of a kind of case', () => {
    const sheath = new Map();
    const rowOf = (kind: string) => tableRow(recordOf(caseText({ kind: JSON.stringify(kind) })), sheath);
    for (const row of caseKinds.filter((_, place) => place % 8 === 0))
      for (const name of row.aliases) expect([name, rowOf(name)]).toEqual([name, rowOf(row.name)]);
  });
});

describe('values that cannot be right', () => {
  const lab = (what: string, value: string) =>
    `before: { labs: [{ what: ${what}, value: ${value}, at: 2024-05-13 }] }`;
  const would = (more: string) =>
    findings(more)
      .filter(f => f.code === 'clinical.value-unlikely')
      .map(f => messageOf(f));

  it.each([
    [lab('haemoglobin', '130 g/dL'), 'g/L'],
    [lab('Hb', '12 g/L'), 'g/dL'],
    [lab('creatinine', '1.1 µmol/L'), 'mg/dL'],
    [lab('platelets', '250000 x10^9/L'), '/µL'],
  ])('%s would fit in %s', (more, unit) => {
    const [message] = would(more);
    expect(message).toContain('cannot be right');
    expect(message).toContain(unit);
  });

  it.each([
    lab('haemoglobin', '13 g/dL'),
    lab('creatinine', '1.1 mg/dL'),
    lab('ALT', '40 IU/L'),
    lab('platelets', '250 K/µL'),
    'drugs: [{ drug: Fentanyl, dose: 100 mcg, route: intravenous, at: "09:00", for: analgesia }]',
  ])('%s is believed', more => {
    expect(would(more)).toEqual([]);
  });

  it('stages and adds nothing from a refused number', () => {
    const more = `before: { labs: [{ what: creatinine, value: 1.1 µmol/L, at: 2024-05-13 }] }
after: { labs: [{ what: creatinine, value: 110 µmol/L, at: 2024-05-15 }] }
drugs: [{ drug: Fentanyl, dose: 100 mg, route: intravenous, at: "09:00", for: analgesia }]`;
    const { calculations, findings: found } = assess(recordOf(caseText({ kind: 'nephrostomy', more })));
    expect(found.map(f => f.code)).not.toContain('clinical.kidney-injury');
    for (const key of ['kidney-injury', 'total/fentanyl/analgesia', 'creatinine-trend/after'])
      expect(english(calculations.find(c => c.key === key)?.notAssessed)).toContain('cannot be right');
  });
});

describe('what is said about a kind', () => {
  it('names the row of a kind of case, or that there is none', () => {
    expect(codes('', 'Percutaneous nephrostomy right')).toContain('clinical.case-kind-read');
    expect(codes('', 'nephrostomy')).not.toContain('clinical.case-kind-read');
    const [note] = findings('', 'something new').filter(f => f.code === 'clinical.case-kind-unknown');
    expect(note?.severity).toBe('information');
    expect(note && messageOf(note)).toContain('bleeding risk');
  });

  it('meets devices that are of what an allergy is about', () => {
    const device = (entry: string, allergy: string) =>
      codes(`before: { allergies: [{ to: ${allergy} }] }\ndevices: { d: ${entry} }`).filter(
        code => code === 'clinical.allergy-device',
      ).length;
    expect(device('{ kind: catheter, material: latex }', 'Latex')).toBe(1);
    expect(device('{ kind: catheter, material: latex-free silicone }', 'Latex')).toBe(0);
    expect(device('{ kind: adhesive fixation device }', 'sticking plaster')).toBe(1);
    expect(device('{ kind: stent, material: nitinol }', 'Nickel')).toBe(1);
    expect(device('{ kind: stent, material: nitinol, use: unopened }', 'Nickel')).toBe(0);
  });

  it('adds local anaesthetics up by their shares, under both spellings', () => {
    const drug = (name: string, dose: string) =>
      `{ drug: ${name}, dose: ${dose}, route: local infiltration, at: "09:00", for: local anaesthesia }`;
    const limits = { lidocaine: { value: '4.5', source: 'x' }, bupivacaine: { value: '2', source: 'x' } };
    const record = recordOf(
      caseText({
        kind: 'nephrostomy',
        patient: '  weight: 60 kg',
        more: `drugs: [${drug('Lignocaine', '100 mg')}, ${drug('Lidocaine', '100 mg')}, ${drug('Bupivacaine', '60 mg')}]`,
      }),
    );
    const { findings: found, calculations } = assess(record, {
      limits: { ...defaultLimits, drugs: { ...defaultLimits.drugs, localAnaesthetic: limits } },
    });
    expect(calculations.filter(c => c.key.startsWith('local-anaesthetic/'))).toHaveLength(2);
    expect(found.filter(f => f.code === 'clinical.local-anaesthetic').map(f => messageOf(f))).toEqual([
      'Local anaesthetics together (Lignocaine 74 %, Bupivacaine 50 %) reach 124 % of their limits.',
    ]);
  });
});
