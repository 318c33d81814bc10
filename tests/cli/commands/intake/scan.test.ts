import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { scan } from '../../../../src/cli/commands/intake/scan.js';

const folder = mkdtempSync(join(tmpdir(), 'scan-'));
afterAll(() => rmSync(folder, { recursive: true }));
const place = (name: string) => join(folder, name);
writeFileSync(
  place('site.yaml'),
  'casetallySite: 1\nname: test\nnamespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02\norganization: { name: Test }\ntimeZone: Europe/Lisbon\ndevices: { catalogue: devices.csv }\n',
);
writeFileSync(place('devices.csv'), 'di,kind,maker\n09520005001228,access needle,Imaginary Needles\n');
const begun = `casetally: 1
# on the table
case: { id: HB-1, date: 2026-06-01 }
devices:
  needle: { kind: access needle } # from the cupboard
`;
const label = (lot: string) => `]d201095200050012281727053110${lot}`;
let n = 0;
async function scanning(...lines: readonly string[]) {
  n += 1;
  const file = place(`case-${n}.yaml`);
  writeFileSync(file, begun);
  const said: string[] = [];
  async function* typed() {
    yield* lines;
  }
  const code = await scan(
    file,
    { site: place('site.yaml'), lines: typed() },
    { out: () => undefined, err: text => void said.push(text), color: false },
  );
  const [text, err] = [readFileSync(file, 'utf8'), said.join('')];
  return { code, err: err.replaceAll(/\s+/g, ' '), text, record: parse(text) as Record<string, unknown> };
}

describe('casetally scan', () => {
  it('gives a label to the device that waits for one, and makes new devices of the others', async () => {
    const { code, err, text, record } = await scanning(label('A1'), label('A2'));
    expect([code, record['devices']]).toEqual([
      0,
      {
        needle: { kind: 'access needle', label: label('A1') },
        'access-needle': { kind: 'access needle', label: label('A2') },
      },
    ]);
    expect(err).toContain('access needle, lot A1, expires 2027-05-31');
    expect(text).toContain('# from the cupboard');
    expect(text).toContain('# on the table');
    expect(record['sources']).toMatchObject([
      { path: 'devices.needle.label', from: 'scan' },
      { path: 'devices.access-needle.kind', from: 'scan' },
      { path: 'devices.access-needle.label', from: 'scan' },
    ]);
  });

  it('leaves out what nobody names, says so, and writes the rest', async () => {
    const { code, err, record } = await scanning(']d2010950600011784310L9', label('A1'));
    expect([code, Object.keys(record['devices'] as object)]).toEqual([1, ['needle']]);
    expect(err).toContain('09506000117843: left out, since nobody said what it is');
  });

  it('takes what a person types for what the device is', async () => {
    const { code, record } = await scanning(']d2010950600011784310L9', 'nephrostomy catheter');
    expect([code, record['devices']]).toMatchObject([
      0,
      { 'nephrostomy-catheter': { kind: 'nephrostomy catheter' } },
    ]);
  });

  it('says what it cannot read and goes on', async () => {
    const { code, err, record } = await scanning('\u001b]0;x\u0007gibberish', label('A1'));
    expect([code, Object.keys(record['devices'] as object)]).toEqual([1, ['needle']]);
    expect(err).not.toContain('\u001b');
  });

  it('with nothing scanned leaves the record byte for byte', async () => {
    const { code, text } = await scanning();
    expect([code, text]).toEqual([0, begun]);
  });

  it('asks before it counts the same label again', async () => {
    expect((await scanning(label('A1'), label('A1'))).record['devices']).toMatchObject({
      needle: { label: label('A1') },
    });
    const { record, err } = await scanning(label('A1'), label('A1'), 'y');
    expect(record['devices']).toMatchObject({ needle: { count: 2 } });
    expect(err).toContain('One more of the same? y or n');
  });
});
