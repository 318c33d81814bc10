import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { objectsFolder } from '../../intake/dose/objects.js';
import { examplesFolder } from '../../support/examples.js';
import { casetally } from '../../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'cli-dose-'));
afterAll(() => rmSync(folder, { recursive: true }));

const dose = (...args: readonly string[]) => casetally(['dose', ...args]);
const object = (name: string) => join(objectsFolder, `${name}.dcm`);

/** The example, of the patient of the reports and with this radiation. */
function record(radiation: string): string {
  const text = readFileSync(join(examplesFolder, 'biliary-drainage-and-stent.yaml'), 'utf8')
    .replace(/^radiation:.*$/m, `radiation: ${radiation}`)
    .replace(/^images:\n(?: .*\n)+/m, '');
  const file = join(folder, 'case.yaml');
  writeFileSync(file, text);
  return file;
}

describe('casetally dose', () => {
  it('prints planes, their sum in units of consoles and of the standard, and lines to paste', async () => {
    const { code, out, err } = await dose(object('biplane'));
    expect([code, err]).toEqual([0, '']);
    for (const text of [
      'Vela Quintanar, 00481516, 1957-08-02, female',
      'Larkfield Imaging Arc Nine, ROOM-2',
      '4 irradiation events, projection X-ray',
      '44.0000 Gy·cm² (0.00440000 Gy·m²)',
      '28.0000 Gy·cm² (0.00280000 Gy·m²)',
      '72.0000 Gy·cm² (0.00720000 Gy·m²)',
      '215.0 s (3:35 min)',
      '\nradiation:\n  kermaAreaProduct: 72.0000 Gy·cm2\n',
    ])
      expect(out).toContain(text);
  });

  it('compares with a record: another patient is an error with both sides', async () => {
    const { code, err, out } = await dose(object('other-patient'), '--case', record('{ airKerma: 156 mGy }'));
    expect(code).toBe(1);
    expect(err).toContain('1983-01-11');
    expect(out).not.toContain('radiation:');
  });

  it('ends with 2 for a file that is no dose report, and still reads the others', async () => {
    const { code, out, err } = await dose(object('single'), object('image'), object('truncated'));
    expect(code).toBe(2);
    expect(out).toContain('45.2310 Gy·cm²');
    expect(err).toContain('dose-report.other-object');
    expect(err).toContain('dose-report.damaged');
  });

  it('ends with 1 where reports do not go together', async () => {
    expect((await dose(object('single'), object('other-patient'))).code).toBe(1);
  });

  it('ends with 2 for a record that cannot be read, and compares nothing', async () => {
    const file = join(folder, 'half.yaml');
    writeFileSync(file, 'casetally: 1\n');
    const { code, err, out } = await dose(object('single'), '--case', file);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('nothing was compared');
  });

  it('does not open a file of 200 MB', async () => {
    const file = join(folder, 'large.dcm');
    const { truncateSync } = await import('node:fs');
    writeFileSync(file, '');
    truncateSync(file, 200_000_000);
    const { code, err } = await dose(file);
    expect(code).toBe(2);
    expect(err).toContain('200000000 bytes');
  });

  it('prints JSON: everything, or the contribution alone', async () => {
    const all = JSON.parse((await dose(object('single'), '--json')).out) as {
      figures: object;
      lines: string[];
    };
    expect(all.figures).toMatchObject({ kermaAreaProduct: { value: '45.2310', unit: 'Gy.cm2' } });
    expect(all.lines[0]).toBe('radiation:');
    const given = JSON.parse((await dose(object('single'), '--contribution')).out) as object;
    expect(given).toMatchObject({ from: 'dose report', about: { accession: 'A-77120' } });
  });

  it.each(['acting-name', 'private'])('%s: nothing of it acts on a terminal', async name => {
    const { out, err } = await dose(object(name), '--verbose');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what a terminal acts on
    expect(out + err).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/);
  });
});
