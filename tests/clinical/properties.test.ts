import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import {
  akiStage,
  creatinineMgDl,
  creatinineMicromol,
  egfrCreatinine,
  egfrCystatin,
  urineStage,
} from '../../src/clinical/kidney/equations.js';
import { beyond } from '../../src/clinical/labs/measure.js';
import { assessRadiation } from '../../src/clinical/radiation/radiation.js';
import {
  convert,
  printQuantity,
  type Quantity,
  readConsoleTime,
  readQuantity,
} from '../../src/record/quantity.js';
import { unitOfCode } from '../../src/record/units.js';
import { caseText, recordOf } from '../support/case-text.js';
import { runs } from '../support/sampled.js';

const decimal = fc
  .tuple(fc.integer({ min: 0, max: 99_999_999 }), fc.integer({ min: 0, max: 6 }))
  .map(([digits, scale]) => new Decimal(digits).div(new Decimal(10).pow(scale)).toFixed(scale));

describe('units of dose', () => {
  const kermaArea = ['Gy.cm2', 'dGy.cm2', 'cGy.cm2', 'mGy.cm2', 'uGy.m2', 'Gy.m2'];
  const groups = [kermaArea, ['Gy', 'mGy'], ['umol/L', 'mmol/L'], ['mL', 'L', 'uL'], ['mg', 'ug']];

  it('come back exact to the digits given', () => {
    fc.assert(
      fc.property(
        decimal,
        fc
          .constantFrom(...groups)
          .chain(codes => fc.tuple(fc.constantFrom(...codes), fc.constantFrom(...codes))),
        (value, [from, to]) => {
          const there = convert({ value, unit: from, code: from }, to);
          expect(there).toBeDefined();
          const back = convert({ value: there?.toFixed() ?? '', unit: to, code: to }, from);
          expect(back?.toFixed()).toBe(new Decimal(value).toFixed());
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('are written and read without a change of digits', () => {
    fc.assert(
      fc.property(decimal, fc.constantFrom(...kermaArea), (value, code) => {
        const unit = unitOfCode(code)?.display ?? '';
        const read = readQuantity(printQuantity({ value, unit, code }), ['kermaArea']);
        expect(read).toEqual({ ok: true, value: { value, unit, code } });
      }),
    );
  });

  it('times of a console are whole seconds', () => {
    fc.assert(
      fc.property(fc.nat(999), fc.nat(59), (minutes, seconds) => {
        const read = readConsoleTime(`${minutes}:${String(seconds).padStart(2, '0')}`);
        expect(read.ok && convert(read.value, 's')?.toNumber()).toBe(minutes * 60 + seconds);
      }),
    );
  });
});

const sex = fc.constantFrom('female', 'male');
const age = fc.integer({ min: 18, max: 120 });
const value = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('kidney function', () => {
  it('more creatinine never gives more filtration, nor does more age', () => {
    fc.assert(
      fc.property(value(0.1, 30), value(0.1, 30), age, age, sex, (a, b, young, old, s) => {
        expect(egfrCreatinine(Math.max(a, b), young, s)).toBeLessThanOrEqual(
          egfrCreatinine(Math.min(a, b), young, s),
        );
        expect(egfrCreatinine(a, Math.max(young, old), s)).toBeLessThanOrEqual(
          egfrCreatinine(a, Math.min(young, old), s),
        );
      }),
      { numRuns: 2000 },
    );
  });

  it('more cystatin C never gives more filtration', () => {
    fc.assert(
      fc.property(value(0.1, 15), value(0.1, 15), age, sex, (a, b, years, s) => {
        expect(egfrCystatin(Math.max(a, b), years, s)).toBeLessThanOrEqual(
          egfrCystatin(Math.min(a, b), years, s),
        );
      }),
    );
  });

  it('has no step where the two branches of the equation meet', () => {
    for (const [s, kappa] of [
      ['female', 0.7],
      ['male', 0.9],
    ] as const)
      expect(egfrCreatinine(kappa - 1e-9, 50, s)).toBeCloseTo(egfrCreatinine(kappa + 1e-9, 50, s), 5);
  });

  it('creatinine comes back from mg/dL', () => {
    fc.assert(
      fc.property(decimal, digits => {
        const mgDl = creatinineMgDl({ value: digits, unit: 'µmol/L', code: 'umol/L' });
        const back = creatinineMicromol({ value: mgDl?.toFixed() ?? '', unit: 'mg/dL', code: 'mg/dL' });
        expect(back?.toDecimalPlaces(6).toFixed()).toBe(new Decimal(digits).toDecimalPlaces(6).toFixed());
      }),
    );
  });

  it('a higher later value never gives a lower stage, and less urine never a lower one', () => {
    const stage = (n: number | undefined) => n ?? -1;
    fc.assert(
      fc.property(value(20, 900), value(1, 2000), value(1, 2000), value(0, 168), (base, a, b, hours) => {
        const of = (later: number) => stage(akiStage(new Decimal(base), new Decimal(later), hours));
        expect(of(Math.max(a, b))).toBeGreaterThanOrEqual(of(Math.min(a, b)));
      }),
      { numRuns: 2000 },
    );
    fc.assert(
      fc.property(value(0, 3), value(0, 3), value(6, 72), (a, b, hours) => {
        const of = (rate: number) => stage(urineStage(new Decimal(rate), hours));
        expect(of(Math.min(a, b))).toBeGreaterThanOrEqual(of(Math.max(a, b)));
      }),
    );
  });
});

describe('a value that is only a bound', () => {
  const comparator = fc.constantFrom('<', '<=', '>=', '>');
  const side = fc.constantFrom('over', 'from', 'under');

  /** Values that the bound allows, near it and far from it. */
  const allowed = (bound: number, sign: string) =>
    [bound - 1000, bound - 0.001, bound, bound + 0.001, bound + 1000].filter(v =>
      sign === '<' ? v < bound : sign === '<=' ? v <= bound : sign === '>' ? v > bound : v >= bound,
    );

  it('is judged only as every value that it allows would be', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 9 }),
        comparator,
        side,
        (bound, limit, sign, s) => {
          const quantity: Quantity = { value: String(bound), comparator: sign, unit: '', code: '1' };
          const judged = beyond(quantity, '1', s, String(limit));
          const each = new Set(
            allowed(bound, sign).map(v => (s === 'over' ? v > limit : s === 'from' ? v >= limit : v < limit)),
          );
          expect(judged).toBe(each.size === 1 ? [...each][0] : undefined);
        },
      ),
      { numRuns: 1000 },
    );
  });
});

it('the same record gives the same assessment, and nothing is written to it', () => {
  const text = caseText({
    more: 'radiation: { airKerma: 6 Gy }\nbefore: { labs: [{ what: creatinine, value: 90 µmol/L, at: 2024-05-13 }] }',
    patient: '  birthDate: 1980-02-29\n  sex: male',
  });
  const record = recordOf(text);
  const before = JSON.stringify(record);
  const plain = (found: ReturnType<typeof assess>) =>
    JSON.stringify([found.calculations, found.findings, found.aftercare]);
  expect(plain(assess(record))).toBe(plain(assess(recordOf(text))));
  expect(JSON.stringify(record)).toBe(before);
});

// For any believable field, a product or an air kerma that is wrong by 10, 100 or 1000 is asked about.
it('no slip of a console unit passes unseen', () => {
  const field = fc.integer({ min: 41, max: 399 });
  const milligray = fc.integer({ min: 1, max: 4000 });
  fc.assert(
    fc.property(field, milligray, fc.constantFrom(10, 100, 1000, 0.1, 0.01, 0.001), (area, kerma, slip) => {
      const product = new Decimal(area).times(kerma).times(slip).toFixed();
      const more = `radiation: { kermaAreaProduct: ${product} mGy.cm2, airKerma: ${kerma} mGy }`;
      const { findings } = assessRadiation(
        recordOf(caseText({ more, patient: '  sex: male' })),
        defaultLimits.radiation,
      );
      expect(findings.map(f => f.code).some(code => /unit-slip|field-narrow/.test(code))).toBe(true);
    }),
    { numRuns: runs(150) },
  );
});
