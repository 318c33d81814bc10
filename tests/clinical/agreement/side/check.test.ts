import { describe, expect, it } from 'vitest';
import { sideWordsIn } from '../../../../src/clinical/agreement/side/words.js';
import { found, recordOf } from '../support.js';

const sides = (body: string, head?: string) => found('clinical.side', recordOf(body, head));

// Trade knowledge: common practice, no source.
describe('sides in a text', () => {
  it.each([
    ['Left common iliac artery', 'left'],
    ['right kidney', 'right'],
    ['Ultrasound-guided chest drain on the right', 'right'],
    ['Embolisation of both uterine arteries', 'left right'],
    ['bilateral nephrostomy', 'left right'],
    ['Left internal jugular vein', 'left'],
    ['Tumour of the lower pole of the left kidney', 'left'],
  ])('%s', (text, wanted) => {
    expect([...new Set(sideWordsIn(text).flatMap(word => word.sides))].sort().join(' ')).toBe(wanted);
  });

  it.each([
    'drain left in the tract',
    'Sheath left in place',
    '15 % left',
    'no left-sided hydronephrosis',
    'previous right nephrectomy',
    'none on the right',
    'both lumens bleed freely',
    'lying on the left side',
    'Flat for 2 hours, right away',
    'the left kidney was treated in 2019',
  ])('none: %s', text => {
    expect(sideWordsIn(text).filter(word => word.parts.length > 0)).toEqual([]);
  });
});

describe('a place against its own words', () => {
  const site = (text: string, side = 'left') => sides(`access: [{ key: a, site: "${text}", side: ${side} }]`);

  it.each([
    'Skin of the right lower belly over the caecum',
    'Right side of the back',
    'Right-sided tract below the ribs',
    'Skin over the right buttock',
    'On the right, below the ribs',
  ])('differs: %s', text => {
    expect(site(text)).toEqual(['clinical.side-differs access[0].side']);
    expect(site(text, 'right')).toEqual([]);
    expect(site(text, 'midline')).toEqual([]);
  });

  it('differs for a target as well', () => {
    expect(sides('targets: { c: { what: Cyst of the left lower belly, side: right } }')).toEqual([
      'clinical.side-differs targets.c.side',
    ]);
  });

  it.each([
    'Existing tract, drain left two weeks ago',
    'Drain left open in the tract',
    'Sheath left in place',
    'Belly to the left of the midline',
    'Left lower belly, right of the scar',
    'Right and left lower belly',
    'Belly, lying on the left side',
    'Tract opposite the left kidney',
  ])('is silent: %s', text => {
    expect(site(text, 'right')).toEqual([]);
  });
});

describe('two places that give different sides', () => {
  it.each([
    ['targets: { k: { what: Left kidney, side: right } }', 'clinical.side-differs targets.k.side'],
    [
      'access: [{ key: a, site: Left internal jugular vein, side: right }]',
      'clinical.side-differs access[0].side',
    ],
    [
      'access: [{ key: a, site: Right flank, side: right }]\ntargets: { k: { what: Left kidney, side: left } }',
      'clinical.side-differs access[0].side',
    ],
    [
      'targets: { k: { what: Left kidney, side: left } }\nfindings: [{ text: Stone in the right kidney, about: k }]',
      'clinical.side-differs findings[0].text',
    ],
    [
      'targets: { k: { what: Left kidney, side: left } }\nconclusion: Right kidney drained',
      'clinical.side-differs conclusion',
    ],
    [
      'access: [{ key: a, site: Right common femoral artery, side: right }]\naftercare: [{ do: Check the left groin, by: ward }]',
      'clinical.side-differs aftercare[0].do',
    ],
    [
      `access: [{ key: a, site: Right internal jugular vein, side: right }]
devices: { n: { kind: access needle, size: 18 G } }
events: [{ at: "09:05", do: puncture, device: n, access: a, into: left internal jugular vein }]`,
      'clinical.side-differs events[0].into',
    ],
    [
      `targets: { k: { what: Left ureter, side: left } }
devices: { s: { kind: double-J stent, size: 6 Fr } }
events: [{ at: "09:05", do: insert, device: s, across: k }]
left: [{ device: s, purpose: intended, site: Right ureter }]`,
      'clinical.side-differs left[0].site',
    ],
  ])('%s', (body, wanted) => {
    expect(sides(body)).toContain(wanted);
  });

  it('the title', () => {
    const one = 'targets: { k: { what: Left kidney, side: left } }';
    const two = 'targets: { a: { what: Left kidney, side: left }, b: { what: Right kidney, side: right } }';
    expect(sides(one, 'kind: nephrostomy, procedure: Nephrostomy on the right')).toEqual([
      'clinical.side-differs case.procedure',
    ]);
    expect(sides(two, 'kind: nephrostomy, procedure: Nephrostomy of the right kidney')).toEqual([
      'clinical.side-missing case.procedure',
    ]);
    expect(sides(one, 'kind: nephrostomy, procedure: Nephrostomy of both kidneys')).toEqual([
      'clinical.side-missing case.procedure',
    ]);
    expect(sides(two, 'kind: nephrostomy, procedure: Bilateral nephrostomy')).toEqual([]);
    expect(sides(one, 'kind: nephrostomy, procedure: Nephrostomy of the left kidney')).toEqual([]);
  });

  it.each([
    // A way in on the other side is normal.
    'access: [{ key: a, site: Right internal jugular vein, side: right }]\ntargets: { v: { what: Left testicular vein, side: left } }',
    'access: [{ key: a, site: Right common femoral artery, side: right }]\ntargets: { i: { what: Left common iliac artery, side: left } }',
    'access: [{ key: a, site: Left radial artery, side: left }]\ntargets: { t: { what: Tumour of liver segment 8 } }',
    'access: [{ key: a, site: Right flank, side: right, approach: transhepatic }]\ntargets: { d: { what: Left hepatic duct, side: left } }',
    'targets: { k: { what: Left kidney, side: left } }\nfindings: [{ text: Stone; none in the right kidney, about: k }]',
    'targets: { k: { what: Left kidney, side: left } }\nindication: { text: Previous right nephrectomy; stone of the left kidney }',
    'targets: { k: { what: Left kidney, side: left } }\nconclusion: Left kidney drained as well as the right kidney before',
    'access: [{ key: a, site: Right basilic vein, side: right }]\naftercare: [{ do: Take blood from the left arm, by: ward }]',
    'targets: { v: { what: Body of the first lumbar vertebra, side: midline } }',
    'targets: { c: { what: Inferior vena cava below the renal veins } }',
    'targets: { t: { what: Transplant kidney } }',
  ])('silent: %s', body => {
    expect(sides(body)).toEqual([]);
  });

  it('a paired organ without a side', () => {
    expect(sides('targets: { k: { what: Kidney } }')).toEqual(['clinical.side-missing targets.k']);
  });
});
