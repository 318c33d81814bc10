import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { MAX_TEXT, MAX_WORD } from '../../src/record/bounds.js';
import { parseCase, parseCaseData } from '../../src/record/parse.js';
import { examplesFolder } from '../support/examples.js';

const text = readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8');
const planned = (value: string) => text.replace('planned: CT-guided drainage', `planned: ${value}`);
const withDevices = (count: number) => {
  const more = Array.from(
    { length: count },
    (_, i) => `  extra${i}: { kind: access needle, use: unopened }\n`,
  );
  return text.replace('devices:\n', `devices:\n${more.join('')}`);
};
const withEvents = (count: number) =>
  text.replace('events:\n', `events:\n${'  - { at: "11:20", do: note, note: seen }\n'.repeat(count)}`);
const sized = (size: string) => text.replace('size: 18 G x 15 cm', `size: ${size}`);

describe('what no case has', () => {
  it.each([
    ['a word of 100,000 characters', planned('x'.repeat(100_000)), 'record.too-long', 'planned'],
    ['a word of 2,000 characters', planned(`a ${'x'.repeat(2_000)} b`), 'record.long-word', 'planned'],
    ['2,000 devices', withDevices(2_000), 'record.too-many-entries', 'devices'],
    ['6,000 events', withEvents(6_000), 'record.too-many', ''],
    ['a size of 200,000 digits', sized('9'.repeat(200_000)), 'record.too-long', 'devices.needle.size'],
    [
      'a size of 200,000 digits and a unit',
      sized(`${'9'.repeat(200_000)} mm`),
      'record.too-long',
      'devices.needle.size',
    ],
    ['a size of 2,000 digits', sized(`${'9'.repeat(2_000)} mm`), 'record.long-word', 'devices.needle.size'],
    [
      'a name of 5,000 characters',
      text.replace('planned:', `${'k'.repeat(900)}${'k'.repeat(100)}k:`),
      'record.long-word',
      '',
    ],
  ])('%s is told at its place, alone', (_, input, code, path) => {
    const { unreadable, findings } = parseCase(input);
    expect(unreadable).toBe(true);
    expect(findings.map(f => [f.code, f.path])).toEqual([[code, path]]);
    expect(JSON.stringify(findings).length).toBeLessThan(1_000);
  });

  it('the same holds for data in memory', () => {
    const { findings } = parseCaseData({ casetally: 1, case: { id: 'x'.repeat(2_000) } });
    expect(findings).toMatchObject([{ code: 'record.long-word', path: 'case.id' }]);
  });

  it('long texts, texts without spaces but with punctuation, and many devices are no fault', () => {
    const codes = (input: string) => parseCase(input).findings.map(f => f.code);
    expect(codes(planned('word '.repeat(MAX_TEXT / 5 - 10)))).toEqual(codes(text));
    expect(codes(planned('引流，'.repeat(MAX_WORD)))).toEqual(codes(text));
    expect(codes(planned('x'.repeat(MAX_WORD)))).toEqual(codes(text));
    expect(codes(withDevices(400))).not.toContain('record.too-many-entries');
  });
});
