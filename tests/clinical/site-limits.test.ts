import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { mergeLimits } from '../../src/clinical/limits.js';
import { checkCase } from '../../src/pipeline/check.js';
import { assessOptions } from '../../src/pipeline/settings.js';
import { aftercareSchema, clinicalSchema } from '../../src/site/clinical.js';
import { siteSchema, unconfiguredSite } from '../../src/site/site.js';
import { caseText } from '../support/case-text.js';
import { english } from '../support/english.js';

const own = { value: '1', source: 'our policy' };
const siteWith = (clinical: object) =>
  siteSchema.parse({
    casetallySite: 1,
    name: 'Test',
    namespace: unconfiguredSite.namespace,
    organization: { name: 'Test' },
    clinical,
  });
const limitsOf = (clinical: object) => assessOptions(siteWith(clinical)).limits;

describe('limits of a site', () => {
  it('are the defaults when it sets none', () => {
    expect(limitsOf({})).toEqual(defaultLimits);
  });

  it('go over the default and leave the others', () => {
    const limits = limitsOf({ radiation: { airKermaNotify: own }, bleeding: { high: { inr: own } } });
    expect(limits?.radiation).toEqual({ ...defaultLimits.radiation, airKermaNotify: own });
    expect(limits?.bleeding.high).toEqual({ ...defaultLimits.bleeding.high, inr: own });
    expect(limits?.bleeding.low).toEqual(defaultLimits.bleeding.low);
  });

  it('can be switched off', () => {
    const { egfrHighRisk, ...others } = defaultLimits.kidney;
    expect(egfrHighRisk).toBeDefined();
    expect(limitsOf({ kidney: { egfrHighRisk: 'off' } })?.kidney).toEqual(others);
    expect(limitsOf({ drugs: { holdHigh: { apixaban: 'off' } } })?.drugs.holdHigh).not.toHaveProperty(
      'apixaban',
    );
  });

  it('leave those from memory out where the site says so, and the own ones stay', () => {
    const limits = limitsOf({ limitsFromMemory: false, radiation: { kermaAreaNotify: own } });
    expect(limits?.radiation.kermaAreaNotify).toEqual(own);
    expect(JSON.stringify(limits)).not.toContain('from memory');
    expect(limits?.radiation.airKermaNotify).toEqual(defaultLimits.radiation.airKermaNotify);
    expect(limits?.drugs.localAnaesthetic).toEqual({});
  });

  it('leave the defaults themselves as they were', () => {
    const before = JSON.stringify(defaultLimits);
    mergeLimits(defaultLimits, { drugs: { hold: { aspirin: own } }, bleeding: { high: { inr: 'off' } } });
    expect(JSON.stringify(defaultLimits)).toBe(before);
  });

  it.each([
    { radiation: { airKermaNotify: { value: 3 } } },
    { radiation: { airKermaNotify: { value: -3, source: 'x' } } },
    { radiation: { airKermaNotify: { value: 'three', source: 'x' } } },
    { radiation: { airKermaNotfy: own } },
    { drugs: { hold: { aspirin: 5 } } },
  ])('need a value and a source: %j', settings => {
    expect(clinicalSchema.safeParse(settings).success).toBe(false);
  });
});

describe('planning of a site', () => {
  const rule = { kind: 'drain', what: 'Look', by: 'ward', source: 'policy' };

  it.each([
    { holidays: ['2024-02-30'] },
    { weekend: [1, 2, 3, 4, 5, 6, 7] },
    { rules: [{ ...rule, due: '1.5 weeks' }] },
    { rules: [{ ...rule, due: '48 hours' }] },
    { rules: [{ ...rule, due: '< 6 weeks' }] },
    { rules: [{ ...rule, due: 'soon' }] },
  ])('refuses %j', settings => {
    expect(aftercareSchema.safeParse(settings).success).toBe(false);
  });

  it('takes structured conditions, with units', () => {
    const criteria = [
      { measure: 'drain output', is: 'under', value: '10 mL', over: '2 days', action: 'may come out' },
    ];
    const parsed = aftercareSchema.parse({ rules: [{ ...rule, due: '6 weeks', criteria }] });
    expect(parsed.rules[0]?.criteria?.[0]?.value).toEqual({ value: '10', unit: 'mL', code: 'mL' });
  });
});

it('the configurations in docs/clinical.md are right as they stand', () => {
  const page = readFileSync(join(import.meta.dirname, '..', '..', 'docs', 'clinical.md'), 'utf8');
  const blocks = [...page.matchAll(/```yaml\n([\s\S]*?)```/g)].map(([, text]) => parse(text ?? '') as object);
  expect(blocks).toHaveLength(2);
  for (const block of blocks)
    expect(siteSchema.safeParse({ ...unconfiguredSite, ...block }).error?.issues).toBeUndefined();
});

it('a finding names the limit of the site and not the published one', () => {
  const site = siteWith({ radiation: { airKermaNotify: own } });
  const text = caseText({ more: 'radiation: { airKerma: 2 Gy }', patient: '  sex: male' });
  const found = checkCase(text, site).findings.find(f => f.code === 'clinical.dose-notify');
  expect([found?.basis, english(found?.params['limit'])]).toEqual(['our policy', '1 Gy']);
});

it('a day that the calendar does not have stops no other check', () => {
  const text = caseText({ more: 'aftercare: [{ do: Scan, due: 2 weeks, by: ward }]' }).replace(
    '2024-05-14',
    '2024-02-31',
  );
  const { findings } = checkCase(text, unconfiguredSite);
  expect(findings.some(f => f.severity === 'error')).toBe(true);
});
