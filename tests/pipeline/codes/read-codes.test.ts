import { describe, expect, it } from 'vitest';
import { messageOf } from '../../../src/findings/finding.js';
import { readCodes } from '../../../src/pipeline/codes/read-codes.js';

const SCT = 'http://snomed.info/sct';
const read = (text: string) => readCodes(new TextEncoder().encode(text));
/** Code and line of each finding. */
const faults = (text: string) => read(text).findings.map(({ code, line }) => `${code}:${line}`);

describe("a site's list of codes", () => {
  it('is read as people and spreadsheets write it', () => {
    const wanted = {
      'jj stent': [{ system: SCT, code: '257366006', display: 'JJ stent', what: 'device' }],
      plug: [{ system: 'urn:oid:2.16.840.1.113883.19.5', code: 'P 1' }],
    };
    const line = (mark: string) =>
      [
        ['what', 'text', 'system', 'code', 'display'],
        ['Device', 'JJ stent', SCT, '257366006', 'JJ stent'],
        ['', ' plug ', 'urn:oid:2.16.840.1.113883.19.5', 'P 1', ''],
        ['device', 'not filled in yet', '', '', ''],
      ]
        .map(row => row.join(mark))
        .join('\r\n');
    for (const text of [
      line(','),
      line(';'),
      line('\t'),
      `\ufeff${line(';')}\r\n\r\n`,
      `sep=;\r\n${line(';')}`,
    ])
      expect(read(text)).toEqual({ codes: wanted, findings: [] });
  });

  it('may have its columns in any order and more of them', () => {
    const { codes, findings } = read(`Code,times,Text,System\n257366006,12,JJ stent,${SCT}\n`);
    expect([codes, findings]).toEqual([{ 'jj stent': [{ system: SCT, code: '257366006' }] }, []]);
  });

  it.each([
    ['what,text,code\n', ['codes.column-missing:1']],
    ['', ['codes.column-missing:1', 'codes.column-missing:1', 'codes.column-missing:1']],
    // What a spreadsheet makes of 1234567890123456.
    [`text;system;code\nplug;${SCT};1,23E+15\n`, ['codes.rounded:2']],
    [`text,system,code\nplug,${SCT},1.23457E+15\n`, ['codes.rounded:2']],
    // And of 900000000000207008, which it rounds after the fifteenth digit.
    [`text,system,code\nplug,${SCT},900000000000207000\n`, ['codes.rounded:2']],
    [`text,system,code\nplug,${SCT},900000000000207008\n`, []],
    // 257366006 without its last digit, and with two digits the other way round.
    [`text,system,code\nplug,${SCT},25736600\n`, ['codes.check-digit:2']],
    [`text,system,code\nplug,${SCT},257360606\n`, ['codes.check-digit:2']],
    ['text,system,code\nplug,http://loinc.org,2160-1\n', ['codes.check-digit:2']],
    [`text,system,code\nplug,${SCT},257 366 006\n`, ['codes.value:2']],
    [`text,system,code\nplug,SNOMED CT,257366006\n`, ['codes.value:2']],
    [`text,system,code\n,${SCT},257366006\n`, ['codes.value:2']],
    [`text,system,code\nplug,${SCT},\n`, ['codes.value:2']],
    [`what,text,system,code\nstuff,plug,${SCT},257366006\n`, ['codes.value:2']],
    [`text,system,code\nplug,${SCT},257366006\nPlug,${SCT},65818007\n`, ['codes.twice:3']],
    [`text,system,code\n"plug,${SCT},257366006\n`, ['codes.unreadable:2']],
  ])('%j: %j', (text, expected) => {
    const { codes } = read(text);
    expect(faults(text)).toEqual(expected);
    expect(Object.values(codes).flat().length).toBe(text.includes('Plug') || expected.length === 0 ? 1 : 0);
  });

  it('says what was expected, and what was likely meant', () => {
    const said = (text: string) => {
      const [first] = read(text).findings;
      return first && messageOf(first);
    };
    expect(said('text,system,code\nplug,snomed,257366006\n')).toContain(SCT);
    expect(said(`text,system,code\nplug,${SCT},257360606\n`)).toContain('257366006');
    expect(said(`text,system,code\nplug,${SCT},25736600\n`)).toContain('257366006');
    expect(said(`text;system;code\nplug;${SCT};1,23E+15\n`)).toContain('1,23E+15');
  });

  it('keeps the same words apart by what they name', () => {
    const { codes, findings } = read(
      `what,text,system,code\ncase,nephrostomy,${SCT},313270001\ndevice,nephrostomy,${SCT},19923001\n`,
    );
    expect(findings).toEqual([]);
    expect(codes['nephrostomy']?.map(({ what, code }) => [what, code])).toEqual([
      ['case', '313270001'],
      ['device', '19923001'],
    ]);
  });

  it('must be UTF-8', () => {
    const latin = Buffer.from(`text,system,code\nKatheter für Galle,${SCT},19923001\n`, 'latin1');
    expect(readCodes(latin).findings.map(({ code }) => code)).toEqual(['codes.not-text']);
  });

  it('may be long, and a long list of faults is cut', () => {
    const rows = Array.from({ length: 10_000 }, (_, i) => `thing ${i},${SCT},257366006`);
    const { codes, findings } = read(`text,system,code\n${rows.join('\n')}\n`);
    expect([Object.keys(codes).length, findings]).toEqual([10_000, []]);
    const bad = rows.map(row => row.replace('257366006', '257366007'));
    const more = read(`text,system,code\n${bad.join('\n')}\n`).findings;
    expect(more.length).toBe(51);
    expect(more.at(-1)).toMatchObject({ code: 'codes.more', params: { count: '9950' } });
  });

  it('has texts that are names of what every object has', () => {
    const { codes } = read(`text,system,code\n__proto__,${SCT},257366006\nconstructor,${SCT},257366006\n`);
    expect(Object.keys(codes)).toEqual(['__proto__', 'constructor']);
  });
});
