import { describe, expect, it } from 'vitest';
import { found, recordOf } from '../support.js';

// Trade knowledge: common practice, no source.
const sides = (body: string) => found('clinical.side-differs', recordOf(body));

const groin = 'access: [{ key: g, site: Left common femoral artery, side: left }]';
const sfa = 'targets: { sfa: { what: Right superficial femoral artery, side: right } }';
const bone = 'targets: { bone: { what: Metastasis of the left iliac bone, side: left } }';
const wrist = 'access: [{ key: w, site: Right radial artery, side: right }]';
const advice = (text: string) => `advice: { patient: ["${text}"] }`;
const aftercare = (text: string) => `aftercare: [{ do: "${text}", by: ward }]`;

describe('a limb that is kept still', () => {
  it.each([
    [groin, 'Right leg straight for 4 hours.'],
    [groin, 'Keep the right hip flat; drink plenty'],
    [groin, 'Do not bend the right knee until 18:00'],
    [wrist, 'Keep the left arm still for 2 hours'],
    [wrist, 'Left wrist straight until the band is off'],
  ])('%s: %s differs', (access, text) => {
    expect(sides(`${access}\n${advice(text)}`)).toEqual(['clinical.side-differs advice.patient[0]']);
    expect(sides(`${access}\n${aftercare(text)}`)).toEqual(['clinical.side-differs aftercare[0].do']);
  });

  it.each([
    [groin, 'Left leg straight for 4 hours.'],
    [groin, 'Both legs straight for 4 hours'],
    [groin, 'Keep the leg straight; right leg free'],
    [groin, 'Keep the right arm with the drip still'],
    [wrist, 'Right leg straight'],
    ['access: [{ key: g, site: Common femoral artery }]', 'Right leg straight for 4 hours'],
    [`${groin.slice(0, -1)}, { key: h, site: Right popliteal vein, side: right }]`, 'Right leg straight'],
  ])('%s: %s is silent', (access, text) => {
    expect(sides(`${access}\n${advice(text)}`)).toEqual([]);
  });
});

describe('a limb that is checked', () => {
  it('on the other side of all that was done differs', () => {
    expect(sides(`${bone}\n${aftercare('Check strength and feeling of the right leg')}`)).toEqual([
      'clinical.side-differs aftercare[0].do',
    ]);
    const well = 'outcome: { overall: successful, condition: Both legs strong }';
    expect(sides(`${bone}\n${well}\n${aftercare('Check strength and feeling of the right leg')}`)).toEqual([
      'clinical.side-differs aftercare[0].do',
    ]);
  });

  it.each([
    [
      bone,
      `indication: { text: Pain in both legs }\n${aftercare('Check strength and feeling of the right leg')}`,
    ],
    [bone, aftercare('Check strength and feeling of the left leg')],
    [bone, aftercare('Check strength and feeling of both legs')],
    [bone, aftercare('Compare the right leg with the left')],
    [bone, aftercare('Check the right arm at the cannula')],
    [bone, `before: { observations: Right leg weak since a fall }\n${aftercare('Check the right leg')}`],
    [
      `${bone}\naccess: [{ key: g, site: Right common femoral artery, side: right }]`,
      aftercare('Check the right leg'),
    ],
    [
      'targets: { m: { what: Left middle cerebral artery, side: left } }',
      aftercare('Check strength of the right leg'),
    ],
    ['targets: { k: { what: Left kidney, side: left } }', aftercare('Check the right leg')],
  ])('%s, %s is silent', (body, care) => {
    expect(sides(`${body}\n${care}`)).toEqual([]);
  });
});

describe('a scan of a limb', () => {
  it('of the limb that was not treated differs', () => {
    expect(sides(`${groin}\n${sfa}\n${aftercare('Duplex of the left leg')}`)).toEqual([
      'clinical.side-differs aftercare[0].do',
    ]);
  });

  it.each([
    'Duplex of the right leg',
    'Duplex of both legs',
    'Ultrasound of the left leg for a false aneurysm',
    'Duplex of the left leg at the puncture site',
  ])('%s is silent', text => {
    expect(sides(`${groin}\n${sfa}\n${aftercare(text)}`)).toEqual([]);
  });
});
