import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { concepts, planeCodes } from '../../../src/intake/dose/concepts.js';
import { readDoseReport } from '../../../src/intake/dose/read.js';
import { figuresOf } from '../../../src/intake/dose/totals.js';
import { allFiles, bytesOf, objects, readable } from './objects.js';

const codesOf = (findings: readonly { code: string }[]) => findings.map(({ code }) => code);

describe('what made-up reports say', () => {
  it('knows every object of the folder', () => {
    expect(objects.map(([name]) => `${name}.dcm`).sort()).toEqual(allFiles().sort());
    expect(readable.length).toBeGreaterThan(25);
  });

  // Plane B of a second set for the same plane and units that are none are left out, and said: tested below.
  it.each(readable.filter(([name]) => !['two-totals', 'unknown-unit'].includes(name)))(
    '%s: the totals that make.py put into it, digit for digit',
    async (name, known) => {
      const { report } = await readDoseReport(bytesOf(name));
      expect(report?.kind).toBe(known.kind);
      expect((report?.xrayEvents.length ?? 0) + (report?.ctEvents.length ?? 0)).toBe(known.events);
      const planes = report?.planes.map(({ plane, ...totals }) => [plane, totals]);
      expect(Object.fromEntries(planes ?? [])).toEqual(known.planes ?? {});
      expect(report?.ct?.doseLengthProduct).toEqual(known.doseLengthProduct);
      expect(report?.patient.id).toBe(known.patient?.id);
      expect(report?.patient.birthDate?.replaceAll('-', '')).toBe(known.patient?.birthDate);
    },
  );

  it.each(objects.filter(([, { error }]) => error))('%s is refused', async (name, { error }) => {
    const { report, findings } = await readDoseReport(bytesOf(name));
    expect([report, codesOf(findings)]).toEqual([undefined, [error]]);
  });

  it('gives scans of CT with dose, phantom and target', async () => {
    const { report, findings } = await readDoseReport(bytesOf('ct'));
    expect(findings).toEqual([]);
    const known = Object.fromEntries(objects)['ct']?.scans ?? [];
    expect(report?.ctEvents.map(scan => [scan.doseIndex?.value, scan.doseLengthProduct?.value])).toEqual(
      known.map(scan => [scan.ctdivol, scan.dlp]),
    );
    expect(report?.ctEvents[1]).toMatchObject({
      ...{ protocol: 'Planning', target: { meaning: 'Abdomen' } },
      ...{ phantom: { code: '113691' }, kvp: { value: '120', unit: 'kV' } },
    });
  });

  it('gives the details of an irradiation event and of the system', async () => {
    const { report } = await readDoseReport(bytesOf('biplane'));
    expect(report?.xrayEvents[1]).toMatchObject({
      ...{
        plane: 'B',
        started: '20240314091200',
        protocol: 'Drainage low',
        type: { meaning: 'Fluoroscopy' },
      },
      ...{ kvp: { value: '76.4', unit: 'kV' }, pulseRate: { value: '7.5', unit: '{pulse}/s' } },
    });
    expect(report?.system).toMatchObject({ model: 'Arc Nine', station: 'ROOM-2', serial: 'LF-9-0042' });
    expect([report?.at, report?.accession, report?.scope?.meaning]).toEqual([
      ...['2024-03-14T09:50:12+01:00', 'A-77120', 'Study'],
    ]);
  });
});

describe('figures of a case', () => {
  const figures = async (name: string) => {
    const { report, findings } = await readDoseReport(bytesOf(name));
    return { figures: report ? figuresOf(report) : {}, codes: codesOf(findings) };
  };

  it('adds two planes exactly', async () => {
    // By hand: 0.0044 + 0.0028 Gy·m² = 0.0072 Gy·m² = 72 Gy·cm²; 171.0 + 125.5 mGy; 120 + 95 s; 45 + 45.
    expect(await figures('biplane')).toEqual({
      figures: {
        kermaAreaProduct: { value: '72.0000', unit: 'Gy.cm2' },
        airKerma: { value: '296.5', unit: 'mGy' },
        fluoroscopyTime: { value: '215.0', unit: 's' },
        frames: { value: '90', unit: '1' },
      },
      codes: [],
    });
  });

  it('reads totals in the units of consoles', async () => {
    // By hand: 34231.0 mGy·cm² = 34.2310 Gy·cm²; 0.0883 min = 5.298 s.
    const { figures: found, codes } = await figures('other-units');
    expect(codes).toEqual([]);
    expect([found.kermaAreaProduct?.value, found.airKerma?.value, found.fluoroscopyTime?.value]).toEqual([
      ...['34.2310', '124.1', '5.298'],
    ]);
  });

  it('adds up events where there is no total and every event has the value, and says so', async () => {
    const { figures: found, codes } = await figures('no-totals');
    const known = Object.fromEntries(objects)['no-totals']?.summed?.['doseAreaProduct'];
    expect(known).toBe('0.00452310');
    expect(found.kermaAreaProduct).toEqual({ value: '45.2310', unit: 'Gy.cm2', fromEvents: 4 });
    expect(codes).toContain('dose-report.summed');
    expect((await figures('ct-no-total')).figures.doseLengthProduct).toEqual({
      ...{ value: '386.00', unit: 'mGy.cm', fromEvents: 2 },
    });
  });

  it('gives no sum where an event lacks the value', async () => {
    const { figures: found, codes } = await figures('no-totals-gap');
    expect([found.kermaAreaProduct, found.airKerma?.fromEvents]).toEqual([undefined, 4]);
    expect(codes).toContain('dose-report.no-total');
  });

  it.each([
    ['disagrees', ['dose-report.sum-differs']],
    ['partial', ['dose-report.partial']],
    ['private', ['dose-report.private']],
    ['zero-events', ['dose-report.no-events']],
    ['two-totals', ['dose-report.plane-twice']],
    ['unknown-unit', ['dose-report.unit']],
    ['acting-name', ['dose-report.name-unread']],
  ])('%s is said', async (name, expected) => {
    expect((await figures(name)).codes).toEqual(expect.arrayContaining(expected));
  });

  it('leaves a total in a unit that is none out, whatever its number', async () => {
    expect((await figures('unknown-unit')).figures.kermaAreaProduct?.fromEvents).toBe(4);
  });
});

describe('names in other letters', () => {
  it.each([
    ['utf8', 'Žofie Šimůnková', []],
    ['latin1', 'Zoë Müller-Núñez', []],
    ['japanese', 'Tarou Yamada', ['太郎 山田', 'たろう やまだ']],
    ['korean', 'Gildong Hong', ['吉洞 洪', '길동 홍']],
  ])('%s', async (name, said, others) => {
    const { report } = await readDoseReport(bytesOf(name));
    expect(report?.patient).toMatchObject({ name: said, otherNames: others });
  });

  it('gives no name that a terminal acts on', async () => {
    const { report } = await readDoseReport(bytesOf('acting-name'));
    expect([report?.patient.name, report?.patient.id]).toEqual([undefined, '00481516']);
  });
});

describe('codes', () => {
  // The dictionary that pydicom (3.0) carries of PS3.16: make.py writes the extract.
  const published = parse(readFileSync(join(import.meta.dirname, 'codes.yaml'), 'utf8')) as Record<
    string,
    string
  >;
  const source = readFileSync(join(import.meta.dirname, '../../../src/intake/dose/concepts.ts'), 'utf8');

  it.each([...Object.values(concepts), ...Object.keys(planeCodes)])(
    '%s has the meaning of the standard',
    code => {
      const beside = new RegExp(`'${code}'.*// ([^:\\n]+)`).exec(source)?.[1]?.trim();
      expect(beside).toBe(published[code]);
    },
  );
});
