import { describe, expect, it } from 'vitest';
import { found, recordOf } from './support.js';

// Trade knowledge: common practice, no source.
const sides = (body: string) => found('clinical.side-differs', recordOf(body));

const body = (
  into: string,
  result = 'open',
  rest = '',
) => `access: [{ key: neck, site: Right internal jugular vein, side: right }]
targets: { vein: { what: Right ovarian vein, side: right } }
devices: { cath: { kind: selective catheter, size: 5 Fr x 100 cm } }
events:
  - { at: "09:10", do: insert, device: cath, access: neck, into: right internal jugular vein }
  - { at: "09:15", do: advance, device: cath, into: "${into}" }
  - { at: "09:20", do: inject, device: cath, agent: iohexol, volume: 5 mL, target: vein, result: "${result}" }
${rest}`;

describe('where a catheter stands when something is done for a target', () => {
  it('differs', () => {
    expect(sides(body('left ovarian vein'))).toEqual(['clinical.side-differs events[1].into']);
    expect(sides(body('right ovarian vein', 'left ovarian vein closed'))).toEqual([
      'clinical.side-differs events[2].result',
    ]);
  });

  it('is silent', () => {
    expect(sides(body('right ovarian vein', 'right ovarian vein closed'))).toEqual([]);
    expect(sides(body('left renal vein', 'reflux'))).toEqual([]);
  });
});

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
