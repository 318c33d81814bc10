import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { examplesFolder } from '../../support/examples.js';
import { casetally } from '../../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'events-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = join(examplesFolder, 'biliary-drainage-and-stent.yaml');

const events = (...args: readonly string[]) => casetally(['events', ...args]);

describe('casetally events', () => {
  it('prints line, event and device, and ends with 0 when all was understood', async () => {
    const { code, out } = await events('--case', file, '10:20 drain flushed with 10 of saline');
    expect(code).toBe(0);
    expect(out).toContain('+ 10:20 drain flushed with 10 of saline\n');
    expect(out).toContain('{ at: "10:20", do: flush, device: drain, volume: 10 mL, agent: saline }');
    expect(out).toContain("device drain: 'drain', words");
  });

  it('marks what was not understood, says why, and ends with 1', async () => {
    const { code, out } = await events('--case', file, '10:21 wibble out\n10:22 drain almost out');
    expect(code).toBe(1);
    expect(out).toContain('- 10:21 [wibble] out');
    expect(out).toContain('? 10:22 drain almost out');
    expect(out).toContain("'almost' may change what is meant");
  });

  it('speaks the language that was asked for', async () => {
    const { out } = await events('--language', 'de', '10:22 drain almost out');
    expect(out).toContain('„almost“ kann den Sinn ändern');
  });

  it('as YAML asserts nothing unless told to, and then nothing that is uncertain', async () => {
    const lines = ['10:20 drain flushed with 10 of saline', '10:22 drain almost out', '10:23 9 Fr sheath in'];
    const proposed = await events('--case', file, '--yaml', ...lines);
    expect(parse(proposed.out)).toBeNull();
    expect(proposed.out).toContain('# - { at: "10:20", do: flush');
    const taken = await events('--case', file, '--yaml', '--accept', ...lines);
    expect(parse(taken.out)).toEqual({
      devices: { sheath9: { kind: 'introducer sheath', size: '9 Fr' } },
      events: [
        { at: '10:20', do: 'flush', device: 'drain', volume: '10 mL', agent: 'saline' },
        { at: '10:23', do: 'insert', device: 'sheath9' },
      ],
    });
  });

  it('takes a time of receipt, and is told when it is none', async () => {
    expect((await events('--case', file, '--at', '10:30', 'drain clamped')).code).toBe(0);
    expect((await events('--case', file, 'drain clamped')).code).toBe(1);
    expect((await events('--at', '10:70', 'drain clamped')).code).toBe(2);
  });

  it('ends with 2 for a case that cannot be read, and without a line', async () => {
    const broken = join(folder, 'broken.yaml');
    writeFileSync(broken, 'casetally: 1\ndevices: { wire: { diameter: 0.035 in } }\n');
    expect((await events('--case', broken, 'wire out')).code).toBe(2);
    expect((await events('--case', join(folder, 'none.yaml'), 'wire out')).code).toBe(2);
    expect((await events()).code).toBe(2);
  });

  it('says what of a case it left out, since it cannot be read and does not matter here', async () => {
    const half = join(folder, 'half.yaml');
    writeFileSync(
      half,
      'casetally: 1\ncase: { date: 2024-05-02, timeZone: Europe/Lisbon }\ndevices: { rope: { kind: guidewire, diameter: wide } }\n',
    );
    const { code, out, err } = await events('--case', half, '10:00 wire in');
    expect([code, out]).toEqual([1, expect.stringContaining('device: rope')]);
    expect(err.replace(/\s+/g, ' ')).toContain(
      "'wide' does not start with a number. (record.bad-quantity, devices.rope.diameter)",
    );
  });

  it('reads lines against a case that was only begun', async () => {
    const begun = join(folder, 'begun.yaml');
    writeFileSync(
      begun,
      'casetally: 1\ncase: { id: HB-1, date: 2024-05-02 }\ndevices: { rope: { kind: guidewire } }\n',
    );
    const { code, out } = await events('--case', begun, '10:00 wire in');
    expect([code, out]).toEqual([0, expect.stringContaining('device: rope')]);
  });

  it('takes many lines in one text', async () => {
    const { code, err } = await events('\n'.repeat(120_000) + '10:00 wire in\n'.repeat(600));
    expect([code, err]).toEqual([1, expect.stringContaining('500')]);
  });

  it('says what was not read, and lets no line act on a terminal', async () => {
    const { code, out, err } = await events(`10:00 ${'wire '.repeat(200)}`, '10:00 \u001b[2Jwire out');
    expect(code).toBe(1);
    expect(err).toContain('a line has at most 400');
    expect(err).toContain('control character');
    expect(out).not.toContain('\u001b');
  });
});
