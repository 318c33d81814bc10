import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';

const today = '2026-11-25';

describe('a date that stands with its hour too', () => {
  const read = (text: string) => {
    const { expires, expiresHour, manufactured, findings } = decodeLabel(`(01)09506000117843${text}`, {
      today,
    });
    return { expires, expiresHour, manufactured, told: findings.map(f => [f.code, f.params['second']]) };
  };

  // Trade knowledge, common practice, no source: both elements give the day on which the device expires.
  it.each([
    ['(17)260430(7003)2604301500', '2026-04-30', '15'],
    ['(7003)2604301500(17)260430', '2026-04-30', '15'],
    ['(17)260400(7003)2604151500', '2026-04-15', '15'],
    ['(7003)2604151500(17)260400', '2026-04-15', '15'],
  ])('%s expires on %s at %s', (text, expires, expiresHour) => {
    expect(read(text)).toEqual({ expires, expiresHour, manufactured: undefined, told: [] });
  });

  it.each([
    ['(17)260430(7003)2605151500', '2026-04-30', '260515'],
    ['(7003)2605151500(17)260430', '2026-05-15', '260430'],
    ['(17)260400(7003)2605151500', '2026-04-30', '260515'],
  ])('%s is told: the first counts', (text, expires, second) => {
    expect(read(text)).toMatchObject({ expires, told: [['label.repeated', second]] });
  });

  it('of production is read the same', () => {
    expect(read('(11)260102(8008)26010215')).toMatchObject({ manufactured: '2026-01-02', told: [] });
    expect(read('(11)260100(8008)26010215')).toMatchObject({ manufactured: '2026-01-02', told: [] });
    expect(read('(11)260103(8008)26010215').told).toEqual([['label.repeated', '260102']]);
  });

  it('that cannot be read contradicts nothing', () => {
    expect(read('(17)26O430(7003)2605151500').told.map(([code]) => code)).toEqual(['label.character']);
  });
});
