import { describe, expect, it } from 'vitest';
import { found, recordOf } from '../support.js';

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
