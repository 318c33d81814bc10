import { describe, expect, it } from 'vitest';
import { found, recordOf } from '../support.js';

// Trade knowledge: common practice, no source.
const sides = (body: string) => found('clinical.side-differs', recordOf(body));

describe('sides before the case', () => {
  const pain = (text: string) =>
    sides(
      `targets: { leg: { what: Right superficial femoral artery, side: right } }\nindication: { text: "${text}" }`,
    );

  it('a symptom on the other side differs', () => {
    expect(pain('Pain in the left calf; stenosis of the right superficial femoral artery')).toEqual([
      'clinical.side-differs indication.text',
    ]);
    expect(pain('Pain in the right calf')).toEqual([]);
    expect(pain('Pain in both legs, worse in the right calf')).toEqual([]);
  });

  it('a vein that is closed is no way in', () => {
    const imaging = (text: string) =>
      sides(
        `access: [{ key: a, site: Left internal jugular vein, side: left }]\nbefore: { imaging: "${text}" }`,
      );
    expect(imaging('left internal jugular vein closed, right open')).toEqual([
      'clinical.side-differs before.imaging',
    ]);
    expect(imaging('right internal jugular vein closed, left open')).toEqual([]);
  });
});

describe('imaging of both sides', () => {
  const imaging = (text: string) =>
    sides(
      `targets: { ica: { what: Right internal carotid artery, side: right } }\nbefore: { imaging: "${text}" }`,
    );

  it.each([
    'CT angiography: left internal carotid stenosis 30 %, right 80 %',
    'CT angiography: left internal carotid stenosis 30 %, 80 % on the right',
    'Left internal carotid stenosis 30 %; the right one 80 %',
    'Duplex: stenosis of both internal carotid arteries',
  ])('is silent: %s', text => {
    expect(imaging(text)).toEqual([]);
  });

  it('is silent in the conclusion too', () => {
    const record = `targets: { ica: { what: Right internal carotid artery, side: right } }
conclusion: "Left internal carotid stenosis 30 %, right 80 % and stented"`;
    expect(sides(record)).toEqual([]);
  });

  it('of the other side alone differs', () => {
    expect(imaging('Left internal carotid stenosis 80 %, none on the right')).toEqual([
      'clinical.side-differs before.imaging',
    ]);
    expect(imaging('Left internal carotid stenosis 80 %')).toEqual(['clinical.side-differs before.imaging']);
  });
});

describe('another side told as treated', () => {
  const of = (text: string, events = '') =>
    sides(
      `targets: { b: { what: Right bronchial artery, side: right } }\nfindings: [{ text: "${text}" }]${events}`,
    );

  it('differs where nothing else knows it', () => {
    expect(of('Left bronchial artery entered and closed with particles as well')).toEqual([
      'clinical.side-differs findings[0].text',
    ]);
  });

  it.each([
    'Left bronchial artery not enlarged on CT and not entered',
    'Left bronchial artery already coiled in 2019',
    'Left bronchial artery closed',
    'Right bronchial artery closed with particles',
  ])('%s is silent', text => {
    expect(of(text)).toEqual([]);
  });

  it('is silent where an event went there', () => {
    const events = `\ndevices: { c: { kind: selective catheter } }
events: [{ at: "09:10", do: advance, device: c, into: left bronchial artery }]`;
    expect(of('Left bronchial artery entered, not enlarged', events)).toEqual([]);
  });
});

describe('the other side for another reason', () => {
  const leg = `access: [{ key: g, site: Left common femoral artery, side: left }]
targets: { sfa: { what: Right superficial femoral artery, side: right } }`;
  const arm = 'targets: { l: { what: Malformation of the left forearm, side: left } }';
  const chest = 'targets: { p: { what: Right pleural space, side: right } }';

  it.each([
    [leg, 'advice: { patient: ["Call if the left foot turns cold."] }'],
    [leg, 'advice: { patient: ["Keep the left leg straight for 2 hours."] }'],
    [leg, 'aftercare: [{ do: Duplex of the left groin if it swells, by: ward }]'],
    [arm, 'advice: { patient: ["Write with the right hand."] }'],
    [arm, 'advice: { patient: ["Shave with the right hand today."] }'],
    [arm, 'advice: { patient: ["Carry nothing in the right hand but a stick."] }'],
    [chest, 'outcome: { overall: successful, condition: "Breathes better, left lung clear" }'],
    [
      'targets: { k: { what: Left kidney, side: left } }',
      'conclusion: Left kidney ablated; right kidney to be watched.',
    ],
    [chest, 'outcome: { overall: successful, condition: "Rim of air on the right, left lung open" }'],
    [
      'targets: { k: { what: Genicular artery of the left knee, side: left } }',
      'indication: { text: Pain in the left knee, conditions: [Right knee replacement] }',
    ],
    [
      'targets: { u: { what: Right ureter, side: right } }',
      'before: { imaging: "Right hydronephrosis; stone of the left kidney" }\nadvice: { referrer: ["Ultrasound of the left kidney in 3 months."] }',
    ],
    [
      'targets: { t: { what: Tumour of the right kidney, side: right } }',
      'indication: { text: "Tumour in a man whose left kidney was taken out" }',
    ],
    [
      'targets: { b: { what: Branch of the right hepatic artery, side: right } }',
      'conclusion: Branch closed; left hepatic artery open.',
    ],
    [
      'access: [{ key: w, site: Right radial artery, side: right }]',
      'outcome: { overall: successful, condition: Moves the left arm }',
    ],
    ['access: [{ key: b, site: "Skin of the left back, patient on the right side", side: left }]', ''],
  ])('%s %s is silent', (body, text) => {
    expect(sides(`${body}\n${text}`)).toEqual([]);
  });

  it('differs without one', () => {
    expect(sides(`${leg}\nconclusion: Left leg reopened`)).toEqual(['clinical.side-differs conclusion']);
    expect(sides(`${leg}\naftercare: [{ do: Check the right groin, by: ward }]`)).toEqual([
      'clinical.side-differs aftercare[0].do',
    ]);
  });
});
