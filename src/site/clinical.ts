import { z } from 'zod';

const text = z.string().trim().min(1);
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

/** A limit of the site: findings name its source, so that a reader knows whose limit it was. */
const limit = z.strictObject({
  value: z.union([z.number(), z.string().regex(/^\d+(\.\d+)?$/)]).transform(String),
  source: text.describe('Whose limit it is: a guideline with its year, or the local policy'),
});

/** Limits and scales of the site; what is not set keeps its published default, or says nothing where there is none. */
export const clinicalSchema = z.strictObject({
  adverseEventScales: z.array(z.enum(['CIRSE 2017', 'CIRSE 2025', 'SIR 2017', 'Clavien-Dindo'])).optional(),
  bleedingRisk: z
    .record(text, z.enum(['low', 'high']))
    .prefault({})
    .describe('Bleeding risk by kind of case, where the site decides it'),
  radiation: z
    .strictObject({
      airKermaNotify: limit.optional().describe('Gy'),
      airKermaStep: limit.optional().describe('Gy'),
      airKermaSubstantial: limit.optional().describe('Gy'),
      peakSkinDoseSubstantial: limit.optional().describe('Gy'),
      kermaAreaSubstantial: limit.optional().describe('Gy·cm²'),
      fluoroscopySubstantial: limit.optional().describe('Minutes'),
      windowDays: limit.optional().describe('Days over which earlier cases count'),
      local: z
        .record(text, limit)
        .prefault({})
        .describe('Local reference level of the kerma-area product by kind of case, Gy·cm²'),
    })
    .prefault({}),
  kidney: z
    .strictObject({
      egfrHighRisk: limit.optional().describe('mL/min/1.73 m²'),
      volume: limit.optional().describe('mL of intravascular contrast'),
    })
    .prefault({}),
  bleeding: z
    .strictObject({
      labAgeDays: limit.optional(),
      high: z.strictObject({ inr: limit.optional(), platelets: limit.optional() }).prefault({}),
      low: z.strictObject({ inr: limit.optional(), platelets: limit.optional() }).prefault({}),
    })
    .prefault({}),
  drugs: z
    .strictObject({
      hold: z
        .record(text, limit)
        .prefault({})
        .describe('Hours between the last dose and access, by drug in lower case'),
      localAnaesthetic: z.record(text, limit).prefault({}).describe('mg/kg, by drug in lower case'),
      prophylaxisWithin: limit.optional().describe('Minutes before access'),
      fastingFood: limit.optional().describe('Hours'),
      fastingFluids: limit.optional().describe('Hours'),
    })
    .prefault({}),
});

/** The working calendar, and what the site's policy asks for by kind of device. */
export const aftercareSchema = z.strictObject({
  weekend: z
    .array(z.number().int().min(1).max(7))
    .default([6, 7])
    .describe('ISO weekdays, 1 Monday to 7 Sunday'),
  holidays: z.array(day).default([]),
  rules: z
    .array(
      z.strictObject({
        kind: text.describe('Kind of device, as in the record'),
        what: text,
        due: text.optional().describe('Such as 6 weeks'),
        latest: text.optional(),
        by: text,
        source: text.describe('The policy that says so'),
      }),
    )
    .default([]),
});
