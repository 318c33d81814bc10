import { describe, expect, it } from 'vitest';
import { found, recordOf } from './support.js';

const drain = 'devices: { d: { kind: locking drainage catheter, size: 8 Fr } }';
const inserted = '{ at: "09:10", do: insert, device: d, depth: 12 cm }, { at: "09:12", do: lock, device: d }';

describe('what is left against the last event', () => {
  const left = (event: string, entry: string) =>
    found(
      'tally.left-differs',
      recordOf(`${drain}\nevents: [${inserted}, ${event}]\nleft: [{ device: d, ${entry} }]`),
    );
  const set = (to: string) => `{ at: "09:20", do: set, device: d, to: ${to}, fixedBy: suture }`;

  it.each([
    [set('free drainage'), 'set: capped', 'left[0].set'],
    [set('underwater seal'), 'set: clamped', 'left[0].set'],
    [set('heparin 1000 IU/mL'), 'set: citrate lock', 'left[0].set'],
    [set('free drainage'), 'depth: 21 cm', 'left[0].depth'],
    [set('free drainage'), 'fixedBy: none', 'left[0].fixedBy'],
    [set('free drainage'), 'fixedBy: adhesive dressing', 'left[0].fixedBy'],
  ])('%s against %s', (event, entry, path) => {
    expect(left(event, entry)).toEqual([`tally.left-differs ${path}`]);
  });

  it.each([
    [set('free drainage'), 'set: free drainage into a bag'],
    [set('free drainage'), 'set: clamped after 24 h'],
    [set('clamped'), 'set: capped'],
    [set('free drainage'), 'depth: 120 mm'],
    [set('free drainage'), 'fixedBy: suture and adhesive device'],
    ['{ at: "09:20", do: withdraw, device: d }', 'depth: 10 cm'],
  ])('silent: %s against %s', (event, entry) => {
    expect(left(event, entry)).toEqual([]);
  });
});

describe('devices', () => {
  it('a loop that was never locked', () => {
    const events = (more: string) =>
      `${drain}\nevents: [{ at: "09:10", do: insert, device: d }${more}]\nleft: [{ device: d }]`;
    expect(found('tally.not-locked', recordOf(events('')))).toEqual(['tally.not-locked devices.d']);
    expect(found('tally.not-locked', recordOf(events(', { at: "09:12", do: lock, device: d }')))).toEqual([]);
    expect(
      found(
        'tally.not-locked',
        recordOf(events(', { at: "09:12", do: note, device: d, result: loop formed }')),
      ),
    ).toEqual([]);
  });

  it('a filter that was never deployed; a ureteric stent is only let go', () => {
    const of = (kind: string, more = '') =>
      recordOf(
        `devices: { f: { kind: ${kind} } }\nevents: [{ at: "09:10", do: insert, device: f }${more}]\nleft: [{ device: f }]`,
      );
    expect(found('tally.not-deployed', of('caval filter'))).toEqual(['tally.not-deployed devices.f']);
    expect(
      found('tally.not-deployed', of('caval filter', ', { at: "09:12", do: deploy, device: f }')),
    ).toEqual([]);
    expect(found('tally.not-deployed', of('double-J stent'))).toEqual([]);
  });

  it('aftercare about a wire that came out, not about its puncture site', () => {
    const of = (task: string) =>
      recordOf(`devices: { w: { kind: guidewire } }
events: [{ at: "09:10", do: insert, device: w }, { at: "09:20", do: remove, device: w }]
aftercare: [{ do: ${task}, device: w, by: ward }]`);
    expect(found('clinical.aftercare-device-out', of('Flush it daily'))).toEqual([
      'clinical.aftercare-device-out aftercare[0].device',
    ]);
    expect(found('clinical.aftercare-device-out', of('Look at the puncture site'))).toEqual([]);
  });

  it('a device over the wire of one sheath and through the other', () => {
    const of = (wire: string, sheath: string) =>
      recordOf(`devices: { wr: { kind: guidewire }, wl: { kind: guidewire }, sr: { kind: introducer sheath }, sl: { kind: introducer sheath }, s: { kind: stent } }
events:
  - { at: "09:01", do: insert, device: wr }
  - { at: "09:02", do: insert, device: sr, over: wr }
  - { at: "09:03", do: insert, device: wl }
  - { at: "09:04", do: insert, device: sl, over: wl }
  - { at: "09:05", do: insert, device: s, over: ${wire}, through: ${sheath} }`);
    expect(found('tally.other-side', of('wl', 'sr'))).toEqual(['tally.other-side events[4]']);
    expect(found('tally.other-side', of('wr', 'sr'))).toEqual([]);
  });
});

describe('contrast', () => {
  const of = (events: string, contrast: string) =>
    found(
      'clinical.contrast',
      recordOf(
        `access: [{ key: a, site: Right common femoral artery, side: right }]\nevents: [${events}]\ncontrast: ${contrast}`,
      ),
    );
  const shot = '{ at: "09:10", do: inject, agent: iohexol, volume: 20 mL }';
  const given = (volume: string, agent = 'iohexol', route = 'intra-arterial') =>
    `[{ agent: ${agent}, volume: ${volume}, route: ${route} }]`;

  it.each([
    [given('10 mL'), 'clinical.contrast-differs contrast[0].volume'],
    [given('480 mL'), 'clinical.contrast-differs contrast[0].volume'],
    [given('20 mL', 'iodixanol'), 'clinical.contrast-differs events[0].agent'],
    ['none', 'clinical.contrast-differs contrast'],
    [given('20 mL', 'iohexol', 'intravenous'), 'clinical.contrast-route-differs contrast[0].route'],
  ])('%s', (contrast, wanted) => {
    expect(of(shot, contrast)).toEqual([wanted]);
  });

  it('silent where the total is a little more, the agent is named in general, or gas was injected', () => {
    expect(of(shot, given('35 mL'))).toEqual([]);
    expect(of(shot, given('20 mL', 'iodinated contrast'))).toEqual([]);
    expect(of('{ at: "09:10", do: inject, agent: carbon dioxide, volume: 200 mL }', 'none')).toEqual([]);
  });
});

describe('course of the case', () => {
  it('consent refused, and a case not done with events', () => {
    expect(found('clinical.consent', recordOf('before: { consent: { status: refused } }'))).toHaveLength(1);
    expect(
      found(
        'clinical.consent',
        recordOf(
          'before: { consent: { status: refused } }',
          'status: not done, reason: refused, kind: biopsy',
        ),
      ),
    ).toEqual([]);
    const events =
      'devices: { n: { kind: access needle } }\nevents: [{ at: "09:10", do: puncture, device: n }]';
    expect(
      found('clinical.not-done', recordOf(events, 'status: not done, reason: fever, kind: biopsy')),
    ).toEqual(['clinical.not-done-with-events events[0]']);
    expect(
      found(
        'clinical.not-done',
        recordOf(
          'drugs: [{ drug: Midazolam, dose: 2 mg, route: intravenous, at: "08:50", for: sedation }]',
          'status: not done, reason: fever, kind: biopsy',
        ),
      ),
    ).toEqual([]);
  });

  it('overall outcome against targets', () => {
    const of = (overall: string, success: string) =>
      recordOf(`targets: { l: { what: Liver, success: ${success} } }\noutcome: { overall: ${overall} }`);
    expect(found('clinical.outcome', of('successful', 'unsuccessful'))).toHaveLength(1);
    expect(found('clinical.outcome', of('unsuccessful', 'successful'))).toHaveLength(1);
    expect(found('clinical.outcome', of('partially successful', 'unsuccessful'))).toEqual([]);
    expect(found('clinical.outcome', of('successful', 'successful'))).toEqual([]);
  });

  it('a death and a plan for a living patient', () => {
    const dead = 'complications: [{ what: Cardiac arrest, harm: death }]\n';
    expect(
      found(
        'clinical.death',
        recordOf(
          `${dead}outcome: { overall: unsuccessful, disposition: Ward }\naftercare: [{ do: Clinic visit, by: patient }]\nadvice: { patient: [Drink well] }`,
        ),
      ),
    ).toEqual([
      'clinical.death-differs outcome.disposition',
      'clinical.death-differs aftercare[0].do',
      'clinical.death-differs advice.patient',
    ]);
    expect(
      found(
        'clinical.death',
        recordOf(
          `${dead}outcome: { overall: unsuccessful, disposition: Mortuary }\naftercare: [{ do: Leave all lines in place for the coroner, by: ward }]`,
        ),
      ),
    ).toEqual([]);
    expect(
      found(
        'clinical.death',
        recordOf('outcome: { overall: successful, text: No patient died, disposition: Ward }'),
      ),
    ).toEqual([]);
  });
});

describe('measures', () => {
  it('fluoroscopy longer than the case', () => {
    const of = (time: string) =>
      found('clinical.fluoroscopy', recordOf(`radiation: { fluoroscopyTime: ${time} }`));
    expect(of('61 min')).toHaveLength(1);
    expect(of('3600 s')).toEqual([]);
  });

  // ISTH: a fall of 20 g/L or more (Schulman and Kearon, J Thromb Haemost 2005;3:692); from memory.
  it('a fall of haemoglobin', () => {
    const of = (after: string, more = '') =>
      found(
        'clinical.haemoglobin',
        recordOf(
          `before: { labs: [{ what: haemoglobin, value: 14.1 g/dL, at: 2024-03-13T08:00 }] }\nafter: { labs: [{ what: Hb, value: ${after}, at: 2024-03-15T08:00 }] }\n${more}`,
        ),
      );
    expect(of('121 g/L')).toEqual(['clinical.haemoglobin-fall after.labs[0].value']);
    expect(of('122 g/L')).toEqual([]);
    expect(of('90 g/L', 'complications: [{ what: Bleeding from the puncture }]')).toEqual([]);
  });

  it('a gradient in two places', () => {
    const of = (value: string) =>
      found(
        'clinical.measurement',
        recordOf(
          `targets: { t: { what: Hepatic tract, pressureBefore: 21 mmHg, pressureAfter: 8 mmHg, success: successful } }\noutcome: { overall: successful, measurements: [{ what: portosystemic gradient after, value: ${value}, unit: mmHg, target: t }] }`,
        ),
      );
    expect(of('18')).toEqual(['clinical.measurement-differs outcome.measurements[0].value']);
    expect(of('8.0')).toEqual([]);
  });
});

describe('specimens, levels, closure', () => {
  const sampled = '{ at: "09:10", do: sample, specimen: c }, { at: "09:12", do: sample, specimen: c }';
  it('cores against samples', () => {
    const of = (specimens: string) =>
      found('clinical.specimen', recordOf(`events: [${sampled}]\nspecimens: ${specimens}`));
    expect(of('[{ key: c, what: liver cores, count: 5 }]')).toEqual([
      'clinical.specimen-differs specimens[0].count',
    ]);
    expect(of('[{ key: c, what: liver cores, count: 2 }]')).toEqual([]);
    expect(of('none')).toEqual(['clinical.specimen-differs specimens']);
  });

  it('vertebra, lobe and segment in title and target', () => {
    const of = (title: string, target: string) =>
      found(
        'clinical.level',
        recordOf(`targets: { t: { what: ${target} } }`, `kind: biopsy, procedure: ${title}`),
      );
    expect(of('Vertebroplasty of T12', 'Body of the first lumbar vertebra')).toHaveLength(1);
    expect(of('Vertebroplasty of L1', 'Body of the first lumbar vertebra')).toEqual([]);
    expect(of('Biopsy of the left upper lobe', 'Nodule of the left lower lobe')).toHaveLength(1);
    expect(of('Facet injection of L4/5', 'Right facet joint of L5')).toEqual([]);
    expect(of('Biopsy of a nodule', 'Nodule of the left lower lobe')).toEqual([]);
  });

  it('a closure device that nothing lists', () => {
    const of = (closure: string) =>
      found(
        'clinical.closure',
        recordOf(`access: [{ key: a, site: Right common femoral artery, side: right, closure: ${closure} }]`),
      );
    expect(of('collagen closure device')).toHaveLength(1);
    expect(of('compression band')).toHaveLength(1);
    expect(of('closure device failed and pressure by hand')).toEqual([]);
    expect(of('pressure by hand')).toEqual([]);
  });
});

describe('the person', () => {
  const of = (text: string, patient: string, head?: string) => {
    const record = recordOf(`indication: { text: ${text} }`, head, patient);
    return [
      ...found('clinical.age', record),
      ...found('clinical.sex', record),
      ...found('clinical.pregnancy-d', record),
    ].map(line => line.split(' ')[0]);
  };
  it.each([
    ['Stone in a 67-year-old man', 'birthDate: 1975-01-02', undefined, 'clinical.age-differs'],
    ['Stone', 'sex: female', 'kind: varicocele embolisation', 'clinical.sex-differs'],
    ['Stone in a 40-year-old woman', 'sex: male, birthDate: 1984-01-02', undefined, 'clinical.sex-differs'],
    [
      'Stone in a woman at 9 weeks of pregnancy',
      'sex: female, pregnant: no',
      undefined,
      'clinical.pregnancy-differs',
    ],
    ['Stone', 'sex: male, pregnant: yes', undefined, 'clinical.pregnancy-differs'],
  ])('%s, %s', (text, patient, head, wanted) => {
    expect(of(text, patient, head)).toEqual([wanted]);
  });

  it.each([
    ['Stone in a 67-year-old man', 'birthDate: 1956-06-02, sex: male', undefined],
    ['Occlusion of a 10-year-old stent', 'birthDate: 1956-06-02', undefined],
    ['Kidney of a 30-year-old donor', 'birthDate: 1956-06-02', undefined],
    ['Stone in a woman who is not pregnant', 'sex: female, pregnant: no', undefined],
    ['Stone', 'sex: male, pregnant: not applicable', undefined],
    ['Varicocele', 'sex: male', 'kind: varicocele embolisation'],
  ])('silent: %s, %s', (text, patient, head) => {
    expect(of(text, patient, head)).toEqual([]);
  });
});

describe('kind and entries', () => {
  it('opposite verbs, and another way of ablation', () => {
    const of = (kind: string, title: string) =>
      found('clinical.kind-differs', recordOf('', `kind: ${kind}, procedure: ${title}`));
    expect(of('caval filter retrieval', 'Insertion of a retrievable caval filter')).toHaveLength(1);
    expect(of('caval filter insertion', 'Insertion of a retrievable caval filter')).toEqual([]);
    expect(of('radiofrequency ablation', 'Microwave ablation of a tumour')).toHaveLength(1);
    expect(of('nephrostomy exchange', 'Removal and insertion of a nephrostomy')).toEqual([]);
  });

  it('a drug entered twice', () => {
    const line = (at: string) => `{ drug: Fentanyl, dose: 50 µg, route: intravenous, at: "${at}" }`;
    expect(found('clinical.entered', recordOf(`drugs: [${line('09:10')}, ${line('09:10')}]`))).toEqual([
      'clinical.entered-twice drugs[1]',
    ]);
    expect(found('clinical.entered', recordOf(`drugs: [${line('09:10')}, ${line('09:20')}]`))).toEqual([]);
  });
});
