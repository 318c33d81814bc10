import { describe, expect, it } from 'vitest';
import { readCatalogue } from '../../../src/devices/catalogue/load.js';
import { normalDi } from '../../../src/devices/catalogue/row.js';
import { CasetallyError } from '../../../src/findings/errors.js';

/** A stream that cuts the text anywhere, also inside a character. */
async function* bytes(text: string, size = 7): AsyncGenerator<Uint8Array> {
  const all = new TextEncoder().encode(text);
  for (let i = 0; i < all.length; i += size) yield all.subarray(i, i + size);
}

const csv = [
  'di,description,kind,maker,reference,sizes,implant,mri,dwell',
  '09506000117843,"Locking drain, 8.5 Fr",drainage catheter,Kestrelmoor Devices,KD-85,8.5 Fr; 35 cm,no,conditional,up to 12 weeks',
  '9521234543213,Ureteric stent,ureteric stent,Ostrale Médica,,7 Fr|26 cm,yes,,',
  'A123BJC5D6E71,Sheath,sheath,,,,maybe,,',
  ',nothing,,,,,,,',
  '09506000117844,wrong digit,wire,,,,,,',
  '09506000117843,"Locking drain, 10 Fr",drainage catheter,Kestrelmoor Devices,KD-85,10 Fr,no,,',
  '',
].join('\n');

describe('a device catalogue as CSV', () => {
  it('is read with its quotes, its sizes and its findings by line', async () => {
    const { rows, findings, read, more } = await readCatalogue(bytes(csv), { format: 'csv' });
    expect({ read, more }).toEqual({ read: 6, more: 0 });
    expect(rows.get('09506000117843')).toEqual({
      di: '09506000117843',
      description: 'Locking drain, 8.5 Fr',
      kind: 'drainage catheter',
      maker: 'Kestrelmoor Devices',
      reference: 'KD-85',
      sizes: ['8.5 Fr', '35 cm'],
      implant: false,
      mri: 'conditional',
      dwell: 'up to 12 weeks',
      line: 2,
    });
    expect(rows.get('09521234543213')).toMatchObject({
      maker: 'Ostrale Médica',
      implant: true,
      sizes: ['7 Fr', '26 cm'],
    });
    expect(findings.map(f => [f.code, f.severity, f.line])).toEqual([
      ['catalogue.value', 'warning', 4],
      ['catalogue.identifier', 'error', 5],
      ['catalogue.identifier', 'warning', 6],
      ['catalogue.repeated', 'warning', 7],
    ]);
  });

  it('keeps only what is asked for', async () => {
    const { rows, read } = await readCatalogue(bytes(csv), { format: 'csv', wanted: ['9521234543213'] });
    expect([...rows.keys()]).toEqual(['09521234543213']);
    expect(read).toBe(6);
  });

  it("takes a site's column names, separator, byte order mark and line ends", async () => {
    const text = '\ufeffGTIN;Artikel;ignored\r\n09506000117843;Drain;x\r\n';
    const columns = { di: 'GTIN', description: 'Artikel' };
    const { rows, findings } = await readCatalogue(bytes(text), { format: 'csv', columns });
    expect(rows.get('09506000117843')).toEqual({ di: '09506000117843', description: 'Drain', line: 2 });
    expect(findings).toEqual([]);
  });

  it('goes on after lines that cannot be read', async () => {
    const text =
      'di,description\n09506000117843,a,b,c\n"0950"6,stray quote\n9521234543213,Stent\n"never closed,x\n1,2\n';
    const { rows, findings } = await readCatalogue(bytes(text), { format: 'csv' });
    expect([...rows.keys()]).toEqual(['09521234543213']);
    expect(findings.map(f => [f.code, f.line])).toEqual([
      ['catalogue.unreadable', 2],
      ['catalogue.identifier', 3],
      // A quote that is never closed shows at the end of the file only.
      ['catalogue.unreadable', 6],
    ]);
  });

  it('says so when the identifier column is missing, and reads no further', async () => {
    const { rows, findings } = await readCatalogue(bytes(`name,size\n${'a,b\n'.repeat(50_000)}`, 1000), {
      format: 'csv',
    });
    expect(rows.size).toBe(0);
    expect(findings.map(f => f.code)).toEqual(['catalogue.column-missing']);
  });

  it('bounds its findings and counts the rest', async () => {
    const { findings, more } = await readCatalogue(bytes(`di\n${'x\n'.repeat(30)}`), {
      format: 'csv',
      maxFindings: 5,
    });
    expect(findings).toHaveLength(5);
    expect(more).toBe(25);
  });

  it('passes on that the source broke off', async () => {
    async function* broken(): AsyncGenerator<string> {
      yield 'di\n09506000117843\n';
      throw new Error('disk');
    }
    await expect(readCatalogue(broken(), { format: 'csv' })).rejects.toThrow(CasetallyError);
  });
});

describe('a device catalogue as JSON', () => {
  const one = '{"di":"09506000117843","sizes":["8.5 Fr","35 cm"],"implant":true}';
  const two = '{"di":9521234543213,"description":"Stent","implant":"no"}';
  it.each([
    ['one object a line', `${one}\n${two}\n`],
    ['an array, one object a line', `[\n  ${one},\n  ${two}\n]\n`],
    ['an array that starts on its first line', `[${one},\n${two}]`],
  ])('%s', async (_, text) => {
    const { rows, findings, read } = await readCatalogue(bytes(text), { format: 'json' });
    expect(findings).toEqual([]);
    expect(read).toBe(2);
    expect(rows.get('09506000117843')).toMatchObject({ sizes: ['8.5 Fr', '35 cm'], implant: true });
    expect(rows.get('09521234543213')).toMatchObject({ description: 'Stent', implant: false });
  });

  it('bad lines are findings with their number', async () => {
    const { rows, findings } = await readCatalogue(bytes(`${one}\n{oops\n[1]\n"x"\n${two}`), {
      format: 'json',
    });
    expect(rows.size).toBe(2);
    expect(findings.map(f => [f.code, f.line])).toEqual([
      ['catalogue.unreadable', 2],
      ['catalogue.unreadable', 3],
      ['catalogue.unreadable', 4],
    ]);
  });
});

describe('identifiers in a catalogue', () => {
  it.each([
    ['9506000117843', '09506000117843'],
    ['0 9506000 117843', '09506000117843'],
    ['A123BJC5D6E71', 'A123BJC5D6E71'],
    ['A9999XYZ100T0944', 'A9999XYZ100T0944'],
    ['1TE123456A', '1TE123456A'],
    ['12345', undefined],
    ['', undefined],
    ['a123bjc5d6e71', undefined],
  ])('%s', (text, di) => {
    expect(normalDi(text)).toBe(di);
  });
});
