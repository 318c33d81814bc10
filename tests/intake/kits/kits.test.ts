import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../../src/devices/details.js';
import { kitContribution, readKit } from '../../../src/intake/kits/read.js';
import { checkCase } from '../../../src/pipeline/check.js';
import { beginFrom, bringIn } from '../../../src/pipeline/intake/bring-in.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { caseKindNamed } from '../../../src/trade/cases/table.js';
import { noneCase } from '../../support/report/cases.js';

const folder = join(import.meta.dirname, '..', '..', '..', 'examples', 'kits');
const files = readdirSync(folder).sort();
const NOW = '2024-05-02T08:12:00.000Z';
const at = { ...unconfiguredSite, timeZone: 'Europe/Lisbon' };

function kitIn(file: string) {
  const { kit, findings } = readKit(readFileSync(join(folder, file)));
  if (!kit) throw new Error(JSON.stringify(findings, null, 1));
  return kit;
}
const put = (text: string, ...names: readonly string[]) =>
  bringIn(text, { contributions: [], kits: names.map(name => kitIn(`${name}.yaml`)) }, at, NOW);

it('there are twelve kits over the field', () => {
  expect(files).toHaveLength(12);
});

describe.each(files)('%s', file => {
  const kit = kitIn(file);
  it('is for kinds of case and has kinds of device that are known', () => {
    expect(kit.caseKinds.filter(kind => caseKindNamed(kind) === undefined)).toEqual([]);
    const { text } = beginFrom({ id: 'X', date: '2024-05-02' }, { contributions: [], kits: [kit] }, at, NOW);
    const { parsed } = checkCase(text ?? '', at);
    expect(parsed.unreadable).toBe(false);
    const whole = put(noneCase, file.replace('.yaml', '')).text ?? '';
    const { record } = checkCase(whole, at);
    if (!record) throw new Error('not whole');
    const found = describeDevices(record).findings.filter(f => f.code === 'device.kind-unknown');
    expect(found).toEqual([]);
  });

  it('asserts nothing: no use, no event, no drug, no aftercare', () => {
    const { values } = kitContribution(kit, NOW);
    expect(values.filter(({ as }) => as === 'set').every(({ path }) => path[0] === 'devices')).toBe(true);
    const { merged, text = '' } = put(noneCase, file.replace('.yaml', ''));
    expect(merged.add).toEqual([]);
    const { record } = checkCase(text, at);
    expect([record?.drugs, record?.sedation, record?.events, record?.aftercare]).toEqual([
      'none',
      'none',
      undefined,
      undefined,
    ]);
    expect(Object.values(record?.devices ?? {}).map(({ use }) => use)).toEqual(
      Object.keys(kit.devices).map(() => undefined),
    );
    expect(text).toContain('# from the kit');
  });

  it('holds the case for each device until somebody says what became of it', () => {
    const { text = '' } = put(noneCase, file.replace('.yaml', ''));
    const open = checkCase(text, at).findings.filter(f => f.code === 'intake.kit-device-open');
    expect(open.map(({ path, severity }) => [path, severity]).sort()).toEqual(
      Object.keys(kit.devices)
        .map(key => [`devices.${key}`, 'error'])
        .sort(),
    );
    // The remedy, to the letter.
    const answered = Object.keys(kit.devices).reduce(
      (here, key) =>
        here
          .replace(new RegExp(`^(  ${key}: \\{)`, 'm'), '$1 use: unopened,')
          .replace(new RegExp(`^(  ${key}:)$`, 'm'), '$1\n    use: unopened'),
      text,
    );
    expect(checkCase(answered, at).findings.filter(f => /^(?:intake|tally)\./.test(f.code))).toEqual([]);
  });
});

describe('devices of a kit', () => {
  it('that were used are closed as any other, and one that was not said stays open', () => {
    const { text = '' } = put(noneCase, 'biopsy');
    const used = `${text}events:\n  - { at: "09:00", do: insert, device: coaxial }\n  - { at: "09:10", do: remove, device: coaxial }\n`;
    const open = checkCase(used, at).findings.filter(f => f.code === 'intake.kit-device-open');
    expect(open.map(({ path }) => path)).toEqual(['devices.biopsy', 'devices.plug']);
  });
  it('are open in a case that was not done too: nobody has said that they were not opened', () => {
    const text = noneCase.replace('status: completed', 'status: not done, reason: fever');
    const { text: now = '' } = put(text, 'biopsy');
    expect(checkCase(now, at).findings.filter(f => f.code === 'intake.kit-device-open')).toHaveLength(3);
  });
  it('that never go in are open as well, until somebody says that they were used', () => {
    const { text = '' } = put(noneCase, 'dialysis-circuit-angioplasty');
    const said = text.replace('inflator: {', 'inflator: { use: used,');
    const open = (of: string) =>
      checkCase(of, at).findings.filter(
        f => f.code === 'intake.kit-device-open' && f.path === 'devices.inflator',
      );
    expect([open(text).length, open(said).length]).toEqual([1, 0]);
  });
  it('that a person typed are judged as before', () => {
    const typed = `${noneCase}devices:\n  wire: { kind: guidewire }\n`;
    expect(checkCase(typed, at).findings.map(f => f.code)).toContain('tally.no-events');
  });
});

describe('a kit', () => {
  const least = 'casetallyKit: 1\nname: X\ndevices:\n  wire: { kind: guidewire }\n';
  it('is read with the least that it needs', () => {
    expect(readKit(least)).toMatchObject({ kit: { name: 'X', caseKinds: [], steps: [] }, findings: [] });
  });
  it.each([
    ['a use', least.replace('guidewire', 'guidewire, use: used'), 'record.unknown-key', 4],
    ['a lot', least.replace('guidewire', 'guidewire, lot: A1'), 'record.unknown-key', 4],
    [
      'a time of a step',
      `${least}steps: [{ at: "09:00", do: insert, device: wire }]\n`,
      'record.unknown-key',
      5,
    ],
    ['a time of a drug', `${least}drugs: [{ at: "09:00", drug: lidocaine }]\n`, 'record.unknown-key', 5],
    [
      'a step with a stranger',
      `${least}steps: [{ do: insert, device: wires }]\n`,
      'record.unknown-reference',
      5,
    ],
    ['a bad size', least.replace('guidewire', 'guidewire, size: big'), 'record.bad-quantity', 4],
    ['no devices', 'casetallyKit: 1\nname: X\n', 'record.missing', 1],
    ['a case', 'casetally: 1\nname: X\n', 'record.unknown-key', 1],
    ['a doubled key', `${least}  wire: { kind: guidewire }\n`, 'record.duplicate-key', 5],
    ['a hostile key', least.replace('wire:', '__proto__:'), 'record.forbidden-key', 4],
    ['no YAML', '{', 'record.not-yaml', 1],
  ])('%s is refused with its line', (_, text, code, line) => {
    const { kit, findings } = readKit(text);
    expect(kit).toBeUndefined();
    expect(findings.map(f => [f.code, f.line])).toContainEqual([code, line]);
  });
  it('of another kind of case is told', () => {
    expect(put(noneCase, 'nephrostomy').findings).toEqual([]);
    expect(put(noneCase, 'biopsy').findings.map(f => f.code)).toEqual(['intake.kit-other-kind']);
  });
  it('twice changes nothing, and two kits with one key are told', () => {
    const once = put(noneCase, 'nephrostomy').text ?? '';
    expect(put(once, 'nephrostomy').text).toBe(once);
    const codes = put(once, 'abscess-drainage').findings.map(f => f.code);
    expect(codes).toContain('intake.key-twice');
  });
});
