import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import { recordOf } from './agreement/support.js';

// Trade knowledge: common practice, no source.
const found = (code: string, body: string, patient = 'birthDate: 1960-01-01, weight: 70 kg') =>
  assess(recordOf(body, undefined, patient))
    .findings.filter(f => f.code === code)
    .map(({ path }) => path);

describe('a place, a volume or a strength that cannot be right', () => {
  const code = 'clinical.value-unlikely';

  it.each([
    ['targets: { t: { what: Left middle cerebral artery, diameter: 26 mm } }', 'targets.t.diameter'],
    ['outcome: { overall: successful, bloodLoss: 40 L }', 'outcome.bloodLoss'],
    ['events: [{ at: "09:20", do: aspirate, volume: 1200 L }]', 'events[0].volume'],
    [
      'devices: { line: { kind: PICC } }\nevents: [{ at: "09:20", do: flush, device: line, agent: saline, volume: 500 mL }]',
      'events[0].volume',
    ],
    [
      'drugs: [{ drug: bupivacaine, dose: 1 mL, strength: 25 %, route: other, at: "09:10" }]',
      'drugs[0].strength',
    ],
    [
      'contrast: [{ agent: gadobutrol, concentration: 6.05 mg/mL, volume: 7 mL, route: intravenous }]',
      'contrast[0].concentration',
    ],
  ])('%s', (body, path) => {
    expect(found(code, body)).toEqual([path]);
  });

  it.each([
    'targets: { t: { what: Left middle cerebral artery, lesion: aneurysm, diameter: 12 mm } }',
    'targets: { t: { what: Inferior vena cava, diameter: 28 mm } }',
    'outcome: { overall: successful, bloodLoss: 0.4 L }',
    'events: [{ at: "09:20", do: aspirate, volume: 3 L }]',
    'drugs: [{ drug: bupivacaine, dose: 1 mL, strength: 0.5 %, route: other, at: "09:10" }]',
    'contrast: [{ agent: gadobutrol, concentration: 605 mg/mL, volume: 7 mL, route: intravenous }]',
  ])('silent: %s', body => {
    expect(found(code, body)).toEqual([]);
  });
});

describe('doses that come too near to one another', () => {
  const twice = (drug: string, at: string) =>
    `drugs: [{ drug: ${drug}, route: intravenous, at: "09:05" }, { drug: ${drug}, route: intravenous, at: ${at} }]`;

  it('are found for what is not given to effect', () => {
    expect(found('clinical.drug-dose-repeated', twice('Paracetamol, dose: 1 g', '"09:40"'))).toEqual([
      'drugs[1].dose',
    ]);
    expect(found('clinical.drug-dose-repeated', twice('Paracetamol, dose: 1 g', '2024-03-14T15:00'))).toEqual(
      [],
    );
    expect(found('clinical.drug-dose-repeated', twice('Midazolam, dose: 2 mg', '"09:40"'))).toEqual([]);
  });
});

describe('a drug that an event injects', () => {
  const injected = (agent: string) =>
    found(
      'clinical.drug-unsaid',
      `drugs: [{ drug: Lidocaine, dose: 100 mg, route: local infiltration, at: "09:05" }]\nevents: [{ at: "09:20", do: inject, agent: ${agent} }]`,
    );

  it('is found where the drugs do not have it', () => {
    expect(injected('triamcinolone and lidocaine')).toEqual(['events[0].agent']);
    for (const agent of ['lidocaine', 'iohexol', 'saline', 'heparin lock', 'steroid'])
      expect(injected(agent)).toEqual([]);
  });
});

describe('a specimen and the events that took it', () => {
  const record = (specimens: string, more = '') =>
    found(
      'clinical.specimen-differs',
      `targets: { a: { what: Left adrenal vein }, b: { what: Right adrenal vein } }
events:
  - { at: "09:20", do: sample, target: a, specimen: one, count: 2 }
  - { at: "09:30", do: sample, target: b, specimen: two, count: 2 }
${more}
specimens: [${specimens}]`,
    );
  const two = '{ key: two, what: blood, from: b, count: 2, at: "09:30" }';

  it.each([
    ['{ key: one, what: blood, from: a, count: 3, at: "09:20" }', 'specimens[0].count'],
    ['{ key: one, what: blood, from: b, count: 2, at: "09:20" }', 'specimens[0].from'],
    ['{ key: one, what: blood, from: a, count: 2, at: "09:02" }', 'specimens[0].at'],
  ])('differ: %s', (one, path) => {
    expect(record(`${one}, ${two}`)).toEqual([path]);
  });

  it('agree, and a third that no event names is found', () => {
    const one = '{ key: one, what: blood, from: a, count: 2, at: "09:21" }';
    expect(record(`${one}, ${two}`)).toEqual([]);
    expect(record(`${one}, ${two}, { key: three, what: blood, count: 1 }`)).toEqual(['specimens[2]']);
  });
});
