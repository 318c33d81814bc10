import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { messageOf } from '../../../src/findings/finding.js';

const today = '2026-11-25';
const item = '0109506000117843';

/** How many readings are listed, and how many are said to be possible. */
function listed(text: string) {
  const { readings = [], findings } = decodeLabel(item + text, { today });
  const said = findings.map(f => / may end in (.*) places; /.exec(messageOf(f))?.[1]);
  return [readings.length, ...said];
}

// The bounds are ours: 64 readings found, 4000 values tried. Texts of random identifiers without their separators.
describe('text that was made to be read in very many ways', () => {
  it.each([
    ['few enough to list them all', '10AB117280229', 3, '3'],
    [
      'as many as are looked for, some of them not allowed',
      '10172802299991130333717280229',
      44,
      '44 or more',
    ],
    ['as many, most of them not allowed', '1000919188372222291A373714488844A05', 25, '25 or more'],
    [
      'more values than are tried',
      '1091912229090A919125125191919125190444900A900090291909137725191A9191444591AAA9005',
      45,
      '45 or more',
    ],
    [
      'the last value tried ends one',
      '1091912229090A9191251254119A191251904449009000900291909137725191A9191444591AAA9005',
      27,
      '27 or more',
    ],
    [
      'most ways end nowhere',
      '1022517280229219921112601019911260101112601011126010121212111260101216662117280229112601016611AA',
      46,
      '46 or more',
    ],
  ])('%s', (_, text, readings, said) => {
    expect(listed(text)).toEqual([readings, said]);
  });

  it('ends at once where no way leads to the end', () => {
    const text = `10${'21221030'.repeat(30)}#`;
    const { lot, findings } = decodeLabel(item + text, { today });
    expect(lot).toBe(text.slice(2));
    expect(findings.map(f => [f.code, messageOf(f)])).toEqual([
      ['label.length', 'Characters in the lot at character 19: 241; 1 to 20 expected.'],
    ]);
  });

  it('two identifiers are possible: neither is taken', () => {
    const decoded = decodeLabel(']C110A012490170178373891862714', { today });
    expect(decoded.readings?.map(reading => [reading.di, reading.lot])).toEqual([
      ['24901701783738', 'A'],
      ['78373891862714', 'A0124'],
      ['78373891862714', 'A01249017'],
    ]);
    expect(decoded).toMatchObject({ elements: [], issuer: 'gs1' });
    expect(decoded.di).toBeUndefined();
  });
});
