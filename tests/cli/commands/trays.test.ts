import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { examplesFolder } from '../../support/examples.js';
import { casetally } from '../../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'trays-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const whole = readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8');

const written = (name: string, text: string) => {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
};
/** The example as it stands in the middle of the case: everything before the wire came out, and nothing after the events. */
const halfway = written('halfway.yaml', whole.slice(0, whole.indexOf('  - { at: "11:29"')));

it('says of a case that is not whole yet where each thing is and what can be done with it', async () => {
  const { code, out } = await casetally(['trays', halfway]);
  expect(code).toBe(0);
  expect(out).toMatch(/In the patient\n {2}0\.035 in guidewire, 80 cm {2}\(wire\)\n {6}remove, /);
  expect(out).toMatch(/\(drain\)\n {6}.*\block\b/);
  expect(out).toMatch(/Out\n {2}18 G access needle, 15 cm {2}\(needle\)\n {6}.*\bpuncture\b/);
  expect(out).not.toContain('On the table');
});

it('names the devices that something may run over, as programs read it, and names in a language', async () => {
  const { out } = await casetally(['trays', halfway, '--json', '--language', 'de']);
  const { placed } = JSON.parse(out) as {
    placed: { device: string; tray: string; name: string; offers: { do: string; over?: string[] }[] }[];
  };
  const dilator = placed.find(({ device }) => device === 'dil8');
  expect(dilator).toMatchObject({ tray: 'out', name: expect.stringContaining('Dilatator') as string });
  expect(dilator?.offers.find(offer => offer.do === 'insert')?.over).toEqual(['wire']);
});

it('says what cannot have been, and ends with 1', async () => {
  const file = written('twice.yaml', whole.replace('do: insert, device: wire', 'do: remove, device: wire'));
  const { code, err } = await casetally(['trays', file]);
  expect(code).toBe(1);
  expect(err).toContain('tally.not-inserted');
});

it.each([
  ['devices that cannot be read', 'devices: [a, b]\n'],
  ['no record', '- 1\n- 2\n'],
  ['bytes that are no text', '\u0000\u0001'],
])('ends with 2 for %s', async (_, text) => {
  const { code, out } = await casetally(['trays', written('bad.yaml', text)]);
  expect([code, out]).toEqual([2, '']);
});
