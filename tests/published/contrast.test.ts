import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { assessContrast } from '../../src/clinical/kidney/contrast.js';
import { mergeLimits } from '../../src/clinical/limits.js';
import { elementOf } from '../../src/trade/drugs/table.js';
import { caseText, recordOf } from '../support/case-text.js';
import { english } from '../support/english.js';

const assess = (entries: string, limits = defaultLimits.kidney) =>
  assessContrast(recordOf(caseText({ more: `contrast: [${entries}]` })), limits);
const results = (entries: string) =>
  Object.fromEntries(
    assess(entries).calculations.map(c => [
      c.key,
      english(c.result?.text) ?? `no: ${english(c.notAssessed)}`,
    ]),
  );
const given = (agent: string, volume: string, route: string, concentration = '') =>
  `{ agent: ${agent}, volume: ${volume}, route: ${route}${concentration && `, concentration: ${concentration}`} }`;

// g = mL × mg/mL ÷ 1000: 50 mL of 300 is 15 g, 100 mL of 350 is 35 g, 20 mL of 240 is 4.8 g.
it.each([
  ['50 mL', '300 mg/mL', '15 g'],
  ['100 mL', '350 mg/mL', '35 g'],
  ['20 mL', '240 mg/mL', '4.8 g'],
  ['0.1 L', '300 g/L', '30 g'],
])('%s of %s is %s of iodine', (volume, concentration, mass) => {
  expect(results(given('iohexol', volume, 'intravenous', concentration))['iodine-mass/intravascular']).toBe(
    mass,
  );
});

describe('routes and elements stay apart', () => {
  it('counts only vessels for the kidneys', () => {
    const all = [
      given('iohexol', '30 mL', 'intra-arterial', '300 mg/mL'),
      given('iohexol', '10 mL', 'intravenous', '300 mg/mL'),
      given('iohexol', '15 mL', 'into the urinary tract', '240 mg/mL'),
      given('iohexol', '5 mL', 'into a cavity', '240 mg/mL'),
    ].join(', ');
    expect(results(all)).toEqual({
      'contrast-volume/intravascular': '40 mL',
      'iodine-mass/intravascular': '12 g',
      'contrast-volume/elsewhere': '20 mL',
      'iodine-mass/elsewhere': '4.8 g',
    });
  });

  // Carbon dioxide carries no iodine: it counts neither for the kidneys nor for a limit of volume. Common practice.
  it('does not add gadolinium to iodine, nor gas to either', () => {
    const all = [
      given('iodixanol', '10 mL', 'intra-arterial', '320 mg/mL'),
      given('gadobutrol', '7.5 mL', 'intravenous', '157.25 mg/mL'),
      given('carbon dioxide', '60 mL', 'intra-arterial'),
    ].join(', ');
    expect(results(all)).toEqual({
      'contrast-volume/intravascular': '17.5 mL',
      'iodine-mass/intravascular': '3.2 g',
      'gadolinium-mass/intravascular': '1.179375 g',
    });
  });

  it.each([
    ['iohexol', 'iodine'],
    ['Iopromide 300', 'iodine'],
    ['meglumine diatrizoate', 'iodine'],
    ['iothalamate', 'iodine'],
    ['ethiodized oil', 'iodine'],
    ['gadoterate meglumine', 'gadolinium'],
    ['CO2', 'none'],
    ['barium sulfate', 'none'],
    ['the usual', undefined],
  ])('%s carries %s', (agent, element) => {
    expect(elementOf(agent)).toBe(element);
  });
});

describe('what is missing', () => {
  it('is said for the concentration', () => {
    expect(results(given('iohexol', '10 mL', 'intravenous'))['iodine-mass/intravascular']).toBe(
      "no: the concentration of 'iohexol' is not recorded",
    );
  });

  it('is said for an agent whose name tells nothing', () => {
    expect(
      results(given('the usual', '10 mL', 'intravenous', '300 mg/mL'))['iodine-mass/intravascular'],
    ).toContain('generic name');
  });

  it('is said for a volume that is only a bound', () => {
    expect(results(given('iohexol', '"< 10 mL"', 'intravenous', '300 mg/mL'))).toEqual({
      'contrast-volume/intravascular': 'no: a volume cannot be counted in mL',
      'iodine-mass/intravascular': 'no: a volume or concentration cannot be counted',
    });
  });
});

it('has no limit of volume unless the site sets one, and names it', () => {
  const entries = `${given('iohexol', '150 mL', 'intravenous', '300 mg/mL')}, ${given('iohexol', '100 mL', 'into a cavity')}`;
  expect(assess(entries).findings).toEqual([]);
  const limits = mergeLimits(defaultLimits, {
    kidney: { volume: { value: '149', source: 'our contrast policy' } },
  });
  const [found] = assess(entries, limits.kidney).findings;
  expect([found?.code, english(found?.params['volume']), found?.basis]).toEqual([
    'clinical.contrast-volume',
    '150',
    'our contrast policy',
  ]);
});
