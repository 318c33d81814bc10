import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ageText, clockText } from '../../../src/cli/terminal/clock.js';
import { nextText, reasonText, shortIds } from '../../../src/cli/terminal/item.js';
import { message } from '../../../src/findings/message.js';

const verdicts = readFileSync(
  join(import.meta.dirname, '..', '..', '..', 'src', 'delivery', 'answer', 'verdict.ts'),
  'utf8',
);
const reasons = [
  ...(verdicts.split('VerdictReason =')[1]?.split(';')[0] ?? '').matchAll(/\| '([\w-]+)'/g),
].map(([, word = '']) => word);

describe('a reason in words', () => {
  it('finds the reasons', () => expect(reasons.length).toBeGreaterThan(30));

  it.each([...reasons, 'not-found-yet', 'not-sent', 'too-old'])('%s', reason => {
    const text = reasonText({ lastReason: reason });
    expect(text).toMatch(/\S/);
    if (reason !== 'accepted') expect(text).not.toBe(reason);
  });

  it('tells nothing of what a finding said, and keeps what a person wrote', () => {
    expect(reasonText({ lastReason: 'delivery.match-near' })).toBe('held back by a finding');
    const parked = { reason: 'wrong patient', by: 'Ben', at: 0, findings: [] };
    expect(reasonText({ lastReason: 'x', parked })).toBe('wrong patient');
    expect(reasonText({})).toBeUndefined();
  });
});

describe('what comes next', () => {
  const now = new Date(2024, 4, 14, 20, 11).getTime();
  const again = (minutes: number) => ({
    message: message('next.again', { time: message('next.soon') }),
    at: now + minutes * 60_000,
  });

  it.each([
    [30, 'goes again at 20:41'],
    [1, 'goes again at 20:12:00'],
    [600, 'goes again at 06:11 on 2024-05-15'],
  ])('in %i minutes: %s', (minutes, text) => expect(nextText(again(minutes), now)).toBe(text));

  it('names items as they are shown, and a reason in words', () => {
    const params = { destination: 'records', reason: 'certificate', id: 'abcdefgh-1' };
    expect(nextText({ message: message('next.paused', params) }, now, id => id.slice(0, 8))).toMatch(
      /the server's certificate is not trusted.*retry abcdefgh$/,
    );
  });

  it('shows as much of ids as tells them apart', () => {
    expect(shortIds(['aaaaaaaa-1', 'bbbbbbbb-2'])('aaaaaaaa-1')).toBe('aaaaaaaa');
    expect(shortIds(['aaaaaaaa-1', 'aaaaaaaa-2'])('aaaaaaaa-2')).toBe('aaaaaaaa-2');
  });

  it.each([
    [0, '0 min'],
    [119, '119 min'],
    [120, '2 h'],
    [60 * 47, '47 h'],
    [60 * 48, '2 d'],
  ])('%i minutes ago is %s', (minutes, text) => expect(ageText(now - minutes * 60_000, now)).toBe(text));

  it('gives the time of today without its date', () => expect(clockText(now, now + 3_600_000)).toBe('20:11'));
});
