import { readdirSync, readFileSync } from 'node:fs';
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { messageOf } from '../../src/findings/finding.js';
import { checkCase } from '../../src/pipeline/check.js';
import { parseCase } from '../../src/record/parse.js';
import type { CaseRecord } from '../../src/record/schema/record.js';
import { unconfiguredSite } from '../../src/site/site.js';

const folder = new URL('../../examples/', import.meta.url);
const read = (name: string) => readFileSync(new URL(name, folder), 'utf8');
const files = readdirSync(folder).filter(name => /\.(yaml|json)$/.test(name) && name !== 'site.yaml');
const whole = files.filter(name => name !== 'mistaken.yaml');

function record(name: string): CaseRecord {
  const parsed = parseCase(read(name));
  if (!parsed.record) throw new Error(parsed.findings.map(f => `${f.line}: ${messageOf(f)}`).join('\n'));
  return parsed.record;
}

describe('examples', () => {
  it('are there, and each is in the list of the folder', () => {
    expect(whole.length).toBeGreaterThanOrEqual(12);
    const list = read('README.md');
    for (const name of [...files, 'site.yaml']) expect(list).toContain(`(${name})`);
  });

  it.each(whole)('%s reads without an error or a warning', name => {
    const { findings } = parseCase(read(name));
    expect(findings.filter(f => f.severity !== 'information').map(f => `${f.line}: ${messageOf(f)}`)).toEqual(
      [],
    );
  });

  it.each(whole)('%s is told in order of time, lies in the past and says what stays and what next', name => {
    const { case: head, events = [], left, aftercare = [], advice, conclusion } = record(name);
    const epochs = events.map(event => event.at.epoch);
    expect(epochs).toEqual([...epochs].sort((a, b) => a - b));
    expect(epochs.length).toBeGreaterThan(10);
    expect(head.date < '2026-01-01').toBe(true);
    expect(left).toBeDefined();
    expect(aftercare.length).toBeGreaterThan(0);
    expect(advice?.contact).toBeDefined();
    expect(conclusion).toBeDefined();
  });

  it.each(whole)('%s gives the contrast that its injections add up to', name => {
    const { events = [], contrast } = record(name);
    const injected = events
      .filter(event => event.do === 'inject' && /^io(hex|dix)/.test(event.agent ?? ''))
      .reduce((sum, event) => sum.plus(event.volume?.value ?? 0), new Decimal(0));
    const stated = (contrast === 'none' ? [] : (contrast ?? [])).reduce(
      (sum, c) => sum.plus(c.volume.value),
      new Decimal(0),
    );
    // In the embolisation the particles were made up with 10 mL of contrast; its note says so.
    expect(stated.toString()).toBe(injected.plus(name === 'embolisation.yaml' ? 10 : 0).toString());
  });

  it.each(whole)('%s has a plausible field for its dose: 50 to 400 cm²', name => {
    // Kerma-area product over air kerma is a field area. Bounds: common practice, no source.
    const { radiation } = record(name);
    if (radiation === 'none' || !radiation?.kermaAreaProduct || !radiation.airKerma) {
      expect(['liver-biopsy.yaml', 'abscess-drain.yaml']).toContain(name);
      return;
    }
    const factors: Record<string, number> = { 'Gy.cm2': 1, 'cGy.cm2': 0.01, 'dGy.cm2': 0.1, 'uGy.m2': 0.01 };
    const area =
      (Number(radiation.kermaAreaProduct.value) * (factors[radiation.kermaAreaProduct.code] ?? Number.NaN)) /
      (Number(radiation.airKerma.value) / 1000);
    expect(radiation.airKerma.code).toBe('mGy');
    expect(area).toBeGreaterThan(50);
    expect(area).toBeLessThan(400);
  });

  it.each(whole)('%s has right check digits in its labels', name => {
    // GS1 mod 10: weights 3 and 1 from the digit left of the check digit (GS1 General Specifications, section 7.9).
    for (const [key, device] of Object.entries(record(name).devices ?? {})) {
      const digits = device.udi ?? /(?:\(01\)|^\]d201)(\d{14})/.exec(device.label ?? '')?.[1];
      if (digits === undefined) continue;
      const sum = [...digits].reduce(
        (total, digit, index) => total + Number(digit) * (index % 2 === 0 ? 3 : 1),
        0,
      );
      expect(sum % 10, key).toBe(0);
    }
  });

  it('cover different zones, and no two share a person', () => {
    const records = whole.map(record);
    expect(new Set(records.map(r => r.case.timeZone)).size).toBe(whole.length);
    const names = records.flatMap(r => [r.patient.name, ...r.team.map(member => member.name)]);
    expect(new Set(names).size).toBe(names.length);
  });

  it('narrowing follows from the diameters where both are given', () => {
    let seen = 0;
    for (const name of whole)
      for (const target of Object.values(record(name).targets ?? {})) {
        if (!target.diameter) continue;
        for (const [lumen, narrowing] of [
          [target.lumenBefore, target.narrowingBefore],
          [target.lumenAfter, target.narrowingAfter],
        ]) {
          if (!lumen || !narrowing) continue;
          seen++;
          expect(Math.round((1 - Number(lumen.value) / Number(target.diameter.value)) * 100)).toBe(
            Number(narrowing.value),
          );
        }
      }
    expect(seen).toBe(4);
  });

  it('over midnight and the clock change the embolisation took 167 minutes', () => {
    const { started, ended } = record('embolisation.yaml').case;
    expect(((ended?.epoch ?? 0) - (started?.epoch ?? 0)) / 60_000).toBe(167);
  });
});

describe('the mistaken example', () => {
  const text = read('mistaken.yaml');
  const lines = text.split('\n');
  const planted = lines.flatMap((line, index) =>
    /^\s*# planted:/.test(line) ? [{ said: line.trim(), line: index + 2 }] : [],
  );
  const { findings } = checkCase(text, unconfiguredSite);

  it('has many mistakes of different kinds', () => {
    expect(planted.length).toBeGreaterThanOrEqual(20);
    expect(new Set(findings.map(f => f.code)).size).toBeGreaterThanOrEqual(12);
  });

  it.each(planted.map(({ said, line }) => [said, line] as const))('%s', (_, line) => {
    expect(findings.filter(f => f.line === line).map(f => f.severity)).toContainEqual(
      expect.stringMatching(/error|warning/),
    );
  });

  it('reading it gives no error on a line where nothing was planted', () => {
    const known = new Set(planted.map(({ line }) => line));
    expect(
      parseCase(text)
        .findings.filter(f => f.severity === 'error' && !known.has(f.line ?? 0))
        .map(f => `${f.line}: ${messageOf(f)}`),
    ).toEqual([]);
  });
});
