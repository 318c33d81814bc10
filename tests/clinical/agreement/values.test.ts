import { describe, expect, it } from 'vitest';
import { found, recordOf } from './support.js';

const differs = (body: string, head?: string) => found('clinical.measurement-differs', recordOf(body, head));

// What is told and what is silent: common practice, no source.
describe('values that two places tell', () => {
  it('blood pressure on leaving and the last one measured', () => {
    const leaves = (condition: string, at = '09:55') =>
      differs(`vitals: [{ at: "09:20", what: blood pressure, value: 150/80 mmHg }, { at: "${at}", what: blood pressure, value: 116/70 mmHg }]
outcome: { overall: successful, condition: "${condition}" }`);
    expect(leaves('Awake, blood pressure 76/40 mmHg')).toEqual([
      'clinical.measurement-differs outcome.condition',
    ]);
    expect(leaves('Awake, blood pressure 110/70 mmHg')).toEqual([]);
    expect(leaves('Awake, BP 145/80')).toEqual([]);
    expect(leaves('Awake, blood pressure 76/40 mmHg', '09:25')).toEqual([]);
    expect(leaves('Awake, pulse 76')).toEqual([]);
  });

  it('wedged and free pressure', () => {
    const measured = (free: string, wedged: string, word = 'wedged') =>
      differs(`devices: { w: { kind: occlusion balloon, size: 11 mm, carried: {} } }
events: [{ at: "09:10", do: measure, device: w, pressure: ${free}, result: free pressure }, { at: "09:12", do: measure, device: w, pressure: ${wedged}, result: ${word} pressure }]`);
    expect(measured('27 mmHg', '9 mmHg')).toEqual(['clinical.measurement-differs events[1].pressure']);
    expect(measured('9 mmHg', '27 mmHg')).toEqual([]);
    expect(measured('9 mmHg', '9 mmHg')).toEqual([]);
    expect(measured('27 mmHg', '9 mmHg', 'atrial')).toEqual([]);
  });

  it('INR and platelets in the reason for the case', () => {
    const reason = (text: string, inr = '1.1') =>
      differs(`indication: { text: "${text}" }
before: { labs: [{ what: INR, value: ${inr}, at: 2024-03-14T07:00 }, { what: platelets, value: 58 x10^9/L, at: 2024-03-14T07:00 }] }`);
    expect(reason('INR 1.9 forbids a biopsy through the skin')).toEqual([
      'clinical.measurement-differs indication.text',
    ]);
    expect(reason('Platelets of 120 forbid nothing')).toHaveLength(1);
    for (const text of [
      'INR 1.9 forbids a biopsy through the skin',
      'Platelets 58 forbid a biopsy',
      'INR was 3.2 on admission',
      'INR 4.1 in 2023',
      'Target INR 2.5',
    ])
      expect(reason(text, '1.9'), text).toEqual([]);
  });

  it('units of blood', () => {
    const told = (
      text: string,
      drugs = '{ drug: Red cells, dose: 1 unit, route: intravenous, at: "09:20" }',
    ) => differs(`drugs: [${drugs}]\noutcome: { overall: successful, text: "${text}" }`);
    expect(told('Bleeding stopped; two units of red cells in the room.')).toEqual([
      'clinical.measurement-differs outcome.text',
    ]);
    for (const text of [
      'Bleeding stopped; one unit of red cells in the room.',
      'Two units of red cells before the case.',
      'Two units of red cells are ready.',
      'Two units of plasma.',
    ])
      expect(told(text), text).toEqual([]);
  });

  it('a drug injected by the events and listed among the drugs', () => {
    const injected = (event: string, dose: string) =>
      differs(`devices: { d: { kind: drainage catheter, size: 8 Fr, carried: {} } }
drugs: [{ drug: Ethanol, dose: ${dose}, route: into the tract, at: "09:20" }]
events: [{ at: "09:20", do: inject, device: d, agent: ethanol 96 %, volume: ${event} }]`);
    expect(injected('300 mL', '30 mL')).toEqual(['clinical.measurement-differs events[0].volume']);
    expect(injected('30 mL', '30 mL')).toEqual([]);
    expect(injected('20 mL', '30 mL')).toEqual([]);
  });

  it('creatinine that nothing explains', () => {
    const value = (creatinine: string, more = 'conditions: [Kidney cancer]') =>
      found(
        'clinical.value-unlikely',
        recordOf(
          `before: { labs: [{ what: creatinine, value: ${creatinine}, at: 2024-03-14T07:00 }], ${more} }`,
          'kind: liver biopsy',
        ),
      );
    expect(value('14 mg/dL')).toEqual(['clinical.value-unlikely before.labs[0].value']);
    expect(value('1300 µmol/L')).toHaveLength(1);
    expect(value('1.4 mg/dL')).toEqual([]);
    expect(value('14 mg/dL', 'conditions: [Haemodialysis for six years]')).toEqual([]);
    expect(value('14 mg/dL', 'observations: hydronephrosis on both sides')).toEqual([]);
  });

  it('a culture in formalin', () => {
    const pot = (sentFor: string, container: string) =>
      found(
        'clinical.specimen-differs',
        recordOf(`devices: { n: { kind: biopsy needle, size: 18 G, carried: {} } }
events: [{ at: "09:20", do: sample, device: n, specimen: s, count: 1 }]
specimens: [{ key: s, what: cores, count: 1, sentFor: ${sentFor}, container: ${container} }]`),
      );
    expect(pot('culture', 'formalin')).toEqual(['clinical.specimen-differs specimens[0].container']);
    expect(pot('histology', 'formalin')).toEqual([]);
    expect(pot('culture', 'sterile pot')).toEqual([]);
    expect(pot('histology and culture', 'formalin and a sterile pot')).toEqual([]);
  });
});

describe('contrast', () => {
  const differ = (list: string, events: string, more = '') =>
    found(
      'clinical.contrast',
      recordOf(`devices: { c: { kind: selective catheter, size: 5 Fr, carried: {} }, g: { kind: microspheres, carried: {} } }
contrast: [${list}]
events: [${events}]
${more}`),
    );
  const inject = (agent: string, volume: string) =>
    `{ at: "09:20", do: inject, device: c, agent: ${agent}, volume: ${volume} }`;

  it('gas and oil are held to what was injected, however few injections there are', () => {
    const gas = (total: string) =>
      differ(
        `{ agent: carbon dioxide, volume: ${total}, route: intravenous }`,
        inject('carbon dioxide', '50 mL'),
      );
    expect(gas('500 mL')).toEqual(['clinical.contrast-differs contrast[0].volume']);
    expect(gas('100 mL')).toHaveLength(1);
    expect(gas('50 mL')).toEqual([]);
    expect(gas('60 mL')).toEqual([]);
  });

  it('digits in another order', () => {
    const total = (mL: string) =>
      differ(
        `{ agent: iohexol, volume: ${mL}, route: intra-arterial }`,
        `${inject('iohexol', '10 mL')}, ${inject('iohexol', '26 mL')}`,
      );
    expect(total('63 mL')).toEqual(['clinical.contrast-differs contrast[0].volume']);
    // Hand injections are seldom all recorded.
    expect(total('45 mL')).toEqual([]);
    expect(total('36 mL')).toEqual([]);
  });

  it('a cavity has no blood in it', () => {
    const route = (target: string, way: string) =>
      differ(
        `{ agent: iohexol, volume: 10 mL, route: ${way} }`,
        inject('iohexol', '10 mL'),
        `targets: { t: { what: ${target} } }`,
      );
    expect(route('Abscess of the pelvis', 'intravenous')).toEqual([
      'clinical.contrast-route-differs contrast[0].route',
    ]);
    expect(route('Abscess of the pelvis', 'into a cavity')).toEqual([]);
    expect(route('Abscess beside the iliac artery', 'intra-arterial')).toEqual([]);
    expect(route('Liver', 'intravenous')).toEqual([]);
  });
});

describe('figures of the texts', () => {
  it('what came out, in parts or in all', () => {
    const told = (text: string) =>
      differs(`devices: { d: { kind: drainage catheter, size: 8 Fr, carried: {} } }
events: [{ at: "09:10", do: aspirate, device: d, volume: 20 mL }, { at: "09:20", do: aspirate, device: d, volume: 260 mL }, { at: "09:30", do: aspirate, device: d, volume: 30 mL }]
outcome: { overall: successful, text: "${text}" }`);
    expect(told('2800 mL of lymph')).toEqual(['clinical.measurement-differs outcome.text']);
    for (const text of ['280 mL of lymph', '310 mL of lymph', '20 mL of lymph', '290 mL of chyle'])
      expect(told(text), text).toEqual([]);
  });

  it('the gauge of cores is that of the biopsy needle', () => {
    const cores = (text: string) =>
      differs(`devices: { n: { kind: access needle, size: 18 G x 7 cm }, b: { kind: biopsy needle, size: 19 G x 20 cm } }
outcome: { overall: successful, text: "${text}" }`);
    expect(cores('Three 18 G cores.')).toHaveLength(1);
    expect(cores('Three 19 G cores.')).toEqual([]);
    expect(cores('Access by an 18 G needle.')).toEqual([]);
  });

  it('each pressure of a list is that of its own part', () => {
    const told = (text: string) =>
      differs(`targets: { t: { what: Portal vein, pressureBefore: 18 mmHg } }
devices: { w: { kind: occlusion balloon, size: 11 mm, carried: {} } }
events: [{ at: "09:10", do: measure, device: w, pressure: 9 mmHg, result: free pressure }, { at: "09:12", do: measure, device: w, pressure: 27 mmHg, result: wedged pressure }]
findings: [{ text: "${text}", about: t }]`);
    expect(told('Free pressure 9 mmHg, wedged pressure 27 mmHg, gradient 18 mmHg')).toEqual([]);
    expect(told('Free pressure 9 mmHg, wedged pressure 27 mmHg, gradient 81 mmHg')).toHaveLength(1);
  });
});

describe('silent, since both are right', () => {
  it.each([
    [
      'a width before and after it was opened',
      `targets: { t: { what: Superior mesenteric artery } }
devices: { b: { kind: angioplasty balloon, size: 7 mm x 20 mm, carried: {} } }
events: [{ at: "09:10", do: note, target: t, result: lumen of the mesenteric artery of 4 mm }, { at: "09:12", do: inflate, device: b, target: t }, { at: "09:14", do: note, target: t, result: lumen of the mesenteric artery of 7 mm }]`,
    ],
    [
      'the volume of a balloon, and contrast through its catheter',
      `devices: { c: { kind: balloon catheter, size: 16 Fr, carried: {} } }
events: [{ at: "09:10", do: inflate, device: c, volume: 10 mL }, { at: "09:12", do: inject, device: c, agent: iohexol, volume: 15 mL }]
contrast: [{ agent: iohexol, volume: 15 mL, route: into the urinary tract }]
outcome: { overall: successful, text: 16 Fr catheter with a 10 mL balloon. }`,
    ],
    [
      'a dose to begin with, and the next ones',
      `before: { anticoagulants: [{ drug: Clopidogrel, dose: 300 mg, lastDose: 2024-03-13T20:00, plan: 75 mg a day for three months }] }
aftercare: [{ do: Clopidogrel 75 mg a day beside aspirin, for: 3 months, by: family doctor }]`,
    ],
    [
      'coils of an earlier session that hold',
      `events: [{ at: "09:10", do: note, result: coils closed tight in the gastroduodenal artery }]
complications: none`,
    ],
  ])('%s', (_, body) => {
    expect(
      found('clinical', recordOf(body)).filter(one => !/egfr|side|left|contrast-route/.test(one)),
    ).toEqual([]);
  });
});
