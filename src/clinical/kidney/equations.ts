import type { Decimal } from '../../record/decimal.js';
import { convert, type Quantity } from '../../record/quantity.js';

export type Sex = 'female' | 'male';

/** µmol/L in 1 mg/dL of creatinine (molar mass 113.12 g/mol); the factor that KDIGO's paired values imply. */
export const MICROMOL_PER_MG_DL = '88.4';

/** Creatinine in µmol/L, exact; undefined for a unit that is no concentration, or a bound (`< 20 µmol/L`). */
export function creatinineMicromol(quantity: Quantity): Decimal | undefined {
  if (quantity.comparator) return undefined;
  return convert(quantity, 'umol/L') ?? convert(quantity, 'mg/dL')?.times(MICROMOL_PER_MG_DL);
}

/** Creatinine in mg/dL, exact as far as the division goes. */
export function creatinineMgDl(quantity: Quantity): Decimal | undefined {
  if (quantity.comparator) return undefined;
  return convert(quantity, 'mg/dL') ?? convert(quantity, 'umol/L')?.div(MICROMOL_PER_MG_DL);
}

/**
 * eGFR in mL/min/1.73 m² by CKD-EPI 2021 (creatinine), Inker et al., NEJM 2021;385:1737:
 * 142 × min(Scr/κ, 1)^α × max(Scr/κ, 1)^−1.200 × 0.9938^age × 1.012 [female];
 * κ 0.7 (female) or 0.9 (male), α −0.241 (female) or −0.302 (male).
 * @param scr serum creatinine, mg/dL, above 0
 * @param age years, 18 or more
 */
export function egfrCreatinine(scr: number, age: number, sex: Sex): number {
  const kappa = sex === 'female' ? 0.7 : 0.9;
  const alpha = sex === 'female' ? -0.241 : -0.302;
  return (
    142 *
    Math.min(scr / kappa, 1) ** alpha *
    Math.max(scr / kappa, 1) ** -1.2 *
    0.9938 ** age *
    (sex === 'female' ? 1.012 : 1)
  );
}

/**
 * eGFR in mL/min/1.73 m² by CKD-EPI 2012 (cystatin C), from memory:
 * 133 × min(Scys/0.8, 1)^−0.499 × max(Scys/0.8, 1)^−1.328 × 0.996^age × 0.932 [female].
 * @param scys cystatin C, mg/L, above 0
 * @param age years, 18 or more
 */
export function egfrCystatin(scys: number, age: number, sex: Sex): number {
  return (
    133 *
    Math.min(scys / 0.8, 1) ** -0.499 *
    Math.max(scys / 0.8, 1) ** -1.328 *
    0.996 ** age *
    (sex === 'female' ? 0.932 : 1)
  );
}

/**
 * eGFR of a child in mL/min/1.73 m² by the bedside equation, Schwartz et al., J Am Soc Nephrol 2009;20:629:
 * 0.413 × height ÷ Scr, for creatinine by an enzymatic method.
 * @param height cm, above 0
 * @param scr serum creatinine, mg/dL, above 0
 */
export const egfrBedside = (height: number, scr: number): number => (0.413 * height) / scr;

export type AkiStage = 0 | 1 | 2 | 3;

/**
 * KDIGO stage of acute kidney injury from two creatinine values (KDIGO 2012, table 2, with the windows of the
 * definition): a rise of 26.5 µmol/L within 48 h, or to 1.5 times within 7 days; then 1 from 1.5 times, 2 from 2.0,
 * 3 from 3.0 or at 353.6 µmol/L.
 * @param base earlier value, µmol/L, above 0
 * @param later later value, µmol/L
 * @param hours between them
 * @returns 0 when no criterion is met; undefined beyond 7 days, where the criteria do not speak
 */
export function akiStage(base: Decimal, later: Decimal, hours: number): AkiStage | undefined {
  if (hours < 0 || hours > 168) return undefined;
  const rise = hours <= 48 && later.minus(base).gte('26.5');
  if (!rise && later.lt(base.times('1.5'))) return 0;
  if (later.gte(base.times(3)) || later.gte('353.6')) return 3;
  return later.gte(base.times(2)) ? 2 : 1;
}

/**
 * KDIGO stage by urine output over an interval (same table): under 0.5 mL/kg/h for 6 h is 1, for 12 h is 2;
 * under 0.3 mL/kg/h for 24 h, or none for 12 h, is 3.
 * @returns undefined under 6 h, where the criteria do not speak
 */
export function urineStage(mlPerKgPerHour: Decimal, hours: number): AkiStage | undefined {
  if (hours < 6) return undefined;
  if (mlPerKgPerHour.gte('0.5')) return 0;
  if (hours >= 24 && mlPerKgPerHour.lt('0.3')) return 3;
  if (hours < 12) return 1;
  return mlPerKgPerHour.isZero() ? 3 : 2;
}
