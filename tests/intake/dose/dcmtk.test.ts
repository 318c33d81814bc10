import { execFileSync, spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readDoseReport } from '../../../src/intake/dose/read.js';
import { bytesOf, objectsFolder, readable } from './objects.js';

/* Field by field against dsrdump of DCMTK (package dcmtk of Debian), which reads the same files by code of its own. */

const present = spawnSync('dsrdump', ['--version']).status === 0;

/** Number of each NUM under a concept, in the order of the document: `(…,"Dose (RP)")="0.0041" (Gy,UCUM[1.4],"Gy")`. */
function numbersIn(text: string, meaning: string): [string, string][] {
  const found = text.matchAll(/<\S+ NUM:\(\d+,DCM,"([^"]*)"\)="([^"]*)" \(([^,]*),UCUM/g);
  return [...found].flatMap(([, name, value = '', unit = '']) => (name === meaning ? [[value, unit]] : []));
}

const pairs = (figures: readonly ({ value: string; unit: string } | undefined)[]) =>
  figures.flatMap(figure => (figure ? [[figure.value, figure.unit]] : []));

// What is left out there on purpose, dsrdump prints: read.test.ts has it.
const compared = readable.filter(
  ([name]) => !['two-totals', 'unknown-unit', 'bare', 'no-preamble'].includes(name),
);

describe.skipIf(!present)('agreement with DCMTK (skipped where dsrdump is not installed)', () => {
  it.each(compared)('%s', async name => {
    const text = execFileSync('dsrdump', ['+Pc', join(objectsFolder, `${name}.dcm`)], {
      stdio: ['ignore', 'pipe', 'ignore'],
    }).toString('latin1');
    const { report } = await readDoseReport(bytesOf(name));
    expect(report).toBeDefined();
    if (!report) return;
    const { planes, xrayEvents, ctEvents, ct } = report;
    const sides: readonly [string, readonly ({ value: string; unit: string } | undefined)[]][] = [
      ['Dose Area Product Total', planes.map(one => one.doseAreaProduct)],
      ['Fluoro Dose Area Product Total', planes.map(one => one.fluoroDoseAreaProduct)],
      ['Acquisition Dose Area Product Total', planes.map(one => one.acquisitionDoseAreaProduct)],
      ['Dose (RP) Total', planes.map(one => one.doseRp)],
      ['Fluoro Dose (RP) Total', planes.map(one => one.fluoroDoseRp)],
      ['Acquisition Dose (RP) Total', planes.map(one => one.acquisitionDoseRp)],
      ['Total Fluoro Time', planes.map(one => one.fluoroTime)],
      ['Total Number of Radiographic Frames', planes.map(one => one.frames)],
      ['Dose Area Product', xrayEvents.map(one => one.doseAreaProduct)],
      ['Dose (RP)', xrayEvents.map(one => one.doseRp)],
      ['KVP', [...xrayEvents, ...ctEvents].map(one => one.kvp)],
      ['Pulse Rate', xrayEvents.map(one => one.pulseRate)],
      ['Irradiation Duration', xrayEvents.map(one => one.duration)],
      ['CT Dose Length Product Total', [ct?.doseLengthProduct]],
      ['Mean CTDIvol', ctEvents.map(one => one.doseIndex)],
      ['DLP', ctEvents.map(one => one.doseLengthProduct)],
    ];
    for (const [meaning, figures] of sides)
      expect([meaning, pairs(figures)]).toEqual([meaning, numbersIn(text, meaning)]);
    expect(text).toContain(`#${report.patient.id}`);
    if (report.patient.birthDate) expect(text).toContain(report.patient.birthDate);
    expect(text).toContain(`"Device Observer UID")="${report.system.observer}"`);
  });

  it('compares something', () => {
    const text = execFileSync('dsrdump', ['+Pc', join(objectsFolder, 'biplane.dcm')]).toString();
    expect(numbersIn(text, 'Dose (RP) Total')).toEqual([
      ['0.1710', 'Gy'],
      ['0.1255', 'Gy'],
    ]);
  });
});
