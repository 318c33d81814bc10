import { describe, expect, it } from 'vitest';
import { figuresIn } from '../../../src/clinical/told/figure.js';
import { isTold } from '../../../src/clinical/told/texts.js';
import { found, recordOf } from '../agreement/support.js';

// Trade knowledge: common practice, no source.
const body = (rest: string) => `drugs: [{ drug: Heparin, dose: 5000 IU, route: intra-arterial, at: "09:10" }]
targets: { iliac: { what: Left common iliac artery, side: left, lesion: stenosis, length: 22 mm, diameter: 8 mm, narrowingBefore: 80 %, narrowingAfter: 5 %, pressureBefore: 42 mmHg, pressureAfter: 2 mmHg } }
devices:
  sheath: { kind: introducer sheath, size: 7 Fr x 11 cm }
  stents: { kind: balloon-expandable stent, size: 8 mm x 37 mm, count: 2 }
events:
  - { at: "09:20", do: inject, device: sheath, agent: iohexol, volume: 20 mL }
  - { at: "09:30", do: aspirate, device: sheath, volume: 1200 mL }
contrast: [{ agent: iohexol, volume: 40 mL, route: intra-arterial }]
radiation: { kermaAreaProduct: 48 Gy·cm2, airKerma: 240 mGy, fluoroscopyTime: 12.4 min }
specimens: [{ what: cores, count: 2 }]
${rest}`;
const conclusion = (text: string) => recordOf(body(`conclusion: "${text}"`), undefined, 'weight: 71 kg');

describe('a figure in a text against its field', () => {
  const code = 'clinical.measurement-differs';

  it.each([
    'gradient 42 to 12 mmHg',
    'Gradient fell from 24 to 2 mmHg',
    '60 % stenosis of the artery',
    'opened; 50 % left',
    '220 mm stenosis',
    '400 mL of contrast',
    '120 mL drained',
    'fluoroscopy 21.4 min',
    'product 4.8 Gy·cm2',
    'heparin 50000 IU given',
    '11 Fr sheath used',
    'three stents placed',
    'four cores taken',
  ])('contradicts: %s', text => {
    expect(found(code, conclusion(text))).toEqual([`${code} conclusion`]);
  });

  it.each([
    'gradient 42 to 2 mmHg',
    'gradient fell by 40 mmHg',
    'gradient under the aim of 10 mmHg',
    '80 % stenosis opened; 5 % left',
    '2 cm stenosis',
    'about 20 mm stenosis',
    'earlier 60 % stenosis',
    '40 mL of contrast',
    '1.2 L drained',
    '1200 mL drained, 500 mL every second day from now',
    'fluoroscopy 12 min',
    'heparin 5000 IU given',
    '7 Fr sheath used',
    '8 x 37 mm stent',
    'two stents placed',
    'one stent in each artery',
    'no third stent placed',
    'three stents were planned',
    'oxygen saturation 96 %',
    'walked 80 m',
  ])('silent: %s', text => {
    expect(found(code, conclusion(text))).toEqual([]);
  });

  it('takes the unit of the next for a figure without one, and no limit, rate or difference', () => {
    const values = (text: string) =>
      figuresIn(text).map(({ quantity }) => `${quantity.value} ${quantity.code}`);
    expect(values('from 21 to 8 mmHg')).toEqual(['21 mm[Hg]', '8 mm[Hg]']);
    expect(values('3 x 40 mm')).toEqual(['3 mm', '40 mm']);
    expect(values('under 20 mL, by 3 mL, 5 mL per hour, up to 4 mL')).toEqual([]);
    expect(values('in room 4 at 10:50 on 2024-03-14')).toEqual([]);
  });
});

describe('a device that a text names', () => {
  const told = (text: string) => found('clinical.device-unlisted', conclusion(text));

  it.each([
    'Bleeding closed with coils.',
    'A vascular plug was placed.',
    'Opened, and a caval filter placed.',
    'Drain left in the cavity; drain left on suction.',
    'Fiducial marker placed.',
    'Closed with glue.',
  ])('is not listed: %s', text => {
    expect(told(text)).toEqual(['clinical.device-unlisted conclusion']);
  });

  it.each([
    'No coils needed.',
    'Closed without a plug.',
    'Coils could be avoided.',
    'If it bleeds again, coils.',
    'Old filter of 2019 open.',
    'A filter is planned for next week.',
    'A plug was not used.',
    'Stent open.',
    'The earlier drain is long out.',
    'Fluid drains freely.',
    'Catheter crosses the midline.',
  ])('silent: %s', text => {
    expect(told(text)).toEqual([]);
  });

  it('is what a complication is about', () => {
    const record = recordOf(body('complications: [{ what: Coil migrated into the lung }]'));
    expect(found('clinical.complication-device', record)).toEqual([
      'clinical.complication-device complications[0].what',
    ]);
  });

  it('says nothing where no devices are listed, or where the request names it', () => {
    expect(found('clinical.device-unlisted', recordOf('conclusion: Coils placed.'))).toEqual([]);
    const known = recordOf(
      body('indication: { text: Pain; coils of 2020 }\nconclusion: Coils are complete.'),
    );
    expect(found('clinical.device-unlisted', known)).toEqual([]);
  });
});

describe('what is told as done', () => {
  it('is neither denied, planned nor past', () => {
    const at = (clause: string) => isTold(clause, clause.indexOf('stent'), 5);
    expect(at('a stent was placed')).toBe(true);
    expect(at('not safe to wait, so the artery got a stent')).toBe(true);
    expect(at('no stent')).toBe(false);
    expect(at('a stent may be needed')).toBe(false);
    expect(at('the previous stent')).toBe(false);
  });
});
