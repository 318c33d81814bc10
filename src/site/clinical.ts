import { z } from 'zod';
import { readQuantity } from '../record/quantity.js';
import { criterionSchema } from '../record/schema/clinical.js';
import { key } from '../record/schema/fields.js';
import { isCalendarDate } from '../record/time.js';

const text = z.string().trim().min(1);
const day = z.string().refine(isCalendarDate, { error: 'is not a day of the calendar, YYYY-MM-DD' });

/** Spans that lead to a day. */
function isSpan(written: string): boolean {
  const read = readQuantity(written, ['duration']);
  return read.ok && !read.value.comparator && /^\d+$/.test(read.value.value) && DAYS.has(read.value.code);
}

const DAYS: ReadonlySet<string> = new Set(['d', 'wk', 'mo', 'a']);

/** A limit of the site: findings name its source, so that a reader knows whose limit it was. `off` takes it away. */
const limit = z.union([
  z.literal('off'),
  z.strictObject({
    value: z.union([z.number().min(0), z.string().regex(/^\d+(\.\d+)?$/)]).transform(String),
    source: text.describe('Whose limit it is: a guideline with its year, or the local policy'),
  }),
]);

const limits = (what: string) => z.record(text, limit).prefault({}).describe(what);
const labs = z
  .strictObject({
    inr: limit.optional(),
    inrFemoral: limit.optional().describe('Where a femoral artery is entered'),
    inrRadial: limit.optional().describe('Where a radial artery is entered'),
    platelets: limit.optional().describe('×10⁹/L'),
    fibrinogen: limit.optional().describe('mg/dL'),
  })
  .prefault({});

const radiation = z
  .strictObject({
    airKermaNotify: limit.optional().describe('Gy'),
    airKermaStep: limit.optional().describe('Gy'),
    airKermaSubstantial: limit.optional().describe('Gy'),
    peakSkinDoseNotify: limit.optional().describe('Gy'),
    peakSkinDoseStep: limit.optional().describe('Gy'),
    peakSkinDoseSubstantial: limit.optional().describe('Gy'),
    kermaAreaNotify: limit.optional().describe('Gy·cm²'),
    kermaAreaStep: limit.optional().describe('Gy·cm²'),
    kermaAreaSubstantial: limit.optional().describe('Gy·cm²'),
    fluoroscopyNotify: limit.optional().describe('Minutes'),
    fluoroscopyStep: limit.optional().describe('Minutes'),
    fluoroscopySubstantial: limit.optional().describe('Minutes'),
    windowDays: limit.optional().describe('Days over which earlier cases count'),
    fieldLeast: limit.optional().describe('cm², mean field at the reference point that is still believed'),
    fieldMost: limit.optional().describe('cm²'),
    fieldNarrow: limit
      .optional()
      .describe('cm², under which a narrow beam and a slip by ten cannot be told apart'),
    kermaRateLeast: limit.optional().describe('mGy in a minute of fluoroscopy that is still believed'),
    kermaRateMost: limit.optional().describe('mGy/min'),
    productRateLeast: limit.optional().describe('Gy·cm² in a minute of fluoroscopy that is still believed'),
    productRateMost: limit.optional().describe('Gy·cm²/min'),
    scanLeast: limit.optional().describe('cm, scanned by CT in all passes together, that is still believed'),
    scanMost: limit.optional().describe('cm'),
    scanShort: limit
      .optional()
      .describe('cm, under which a short scan and a slip by ten cannot be told apart'),
    local: limits('Local reference level of the kerma-area product by kind of case, Gy·cm²'),
  })
  .prefault({});

const drugs = z
  .strictObject({
    hold: limits('Hours between the last dose and access, by drug, whatever the bleeding risk'),
    holdHigh: limits('The same before a procedure of high bleeding risk'),
    holdLow: limits('The same before one of low bleeding risk, or of a risk that is not known'),
    doseFactor: limit
      .optional()
      .describe('How many times the usual most of a drug is not believed; off: doses are not checked'),
    localAnaesthetic: limits('mg/kg, by drug; such as lidocaine, and lidocaine with adrenaline'),
    prophylaxisWithin: limit.optional().describe('Minutes before access'),
    prophylaxisWindow: limits('Minutes before access, by drug where that differs'),
    redose: limits('Hours after which another dose of prophylaxis is due while the case lasts, by drug'),
    fastingFood: limit.optional().describe('Hours'),
    fastingFluids: limit.optional().describe('Hours'),
  })
  .prefault({});

/** Limits and scales of the site; what is not set keeps its published default, or says nothing where there is none. */
export const clinicalSchema = z.strictObject({
  adverseEventScales: z.array(z.enum(['CIRSE 2017', 'CIRSE 2025', 'SIR 2017', 'Clavien-Dindo'])).optional(),
  limitsFromMemory: z
    .boolean()
    .default(true)
    .describe(
      'Use the limits that were recalled and not looked up; each says so, docs/clinical.md lists them',
    ),
  bleedingRisk: z
    .record(text, z.enum(['low', 'high']))
    .prefault({})
    .describe('Bleeding risk by kind of case, where the site decides it'),
  radiation,
  kidney: z
    .strictObject({
      egfrHighRisk: limit.optional().describe('mL/min/1.73 m²'),
      volume: limit.optional().describe('mL of intravascular contrast'),
      volumeByCreatinine: limit
        .optional()
        .describe('mL of intravascular contrast for each kg, over creatinine in mg/dL'),
      volumeChild: limit.optional().describe('mL of intravascular contrast for each kg of a child'),
      labAgeDays: limit.optional().describe('Days after which creatinine before contrast counts as old'),
    })
    .prefault({}),
  bleeding: z
    .strictObject({
      labAgeDays: limit.optional().describe('Days after which a lab value counts as old'),
      high: labs,
      low: labs,
      liverHigh: labs.describe('In place of high, where chronic liver disease is among the conditions'),
      liverLow: labs.describe('In place of low, where chronic liver disease is among the conditions'),
    })
    .prefault({}),
  drugs,
  outcome: z
    .strictObject({
      residualNarrowing: limit.optional().describe('%, above which a dilated target is no success'),
      narrowingDiffers: limit.optional().describe('Points between written and worked-out narrowing'),
    })
    .prefault({}),
});

const span = text.refine(isSpan, {
  error: 'is not a span in whole days, weeks, months or years, such as 6 weeks',
});

const ruleFields = {
  what: text,
  earliest: span.optional(),
  due: span.optional().describe('Such as 6 weeks from the day of the case, or 4 hours from its end'),
  latest: span.optional(),
  when: text.optional().describe('The condition on which it is done'),
  criteria: z.array(criterionSchema).optional().describe('Conditions that a ward can measure and act on'),
  every: text.optional(),
  for: text.optional().describe('How long'),
  by: text,
  call: text.optional().describe('At what, and whom'),
  ifMissed: text.optional(),
  source: text.describe('The policy that says so'),
};

/** The working calendar, and what the site's policy asks for by kind of device and of case. */
export const aftercareSchema = z.strictObject({
  weekend: z
    .array(z.number().int().min(1).max(7))
    .max(6)
    .default([6, 7])
    .describe('ISO weekdays, 1 Monday to 7 Sunday'),
  holidays: z.array(day).default([]),
  rules: z
    .array(
      z.strictObject({
        key: key
          .optional()
          .describe(
            'An item of the record with this key, about the same device, takes the place of the rule',
          ),
        kind: text.optional().describe('Kind or family of device; absent: the rule is about the case'),
        case: text.optional().describe('Kind of case; absent: every one'),
        ...ruleFields,
      }),
    )
    .default([]),
  skinReview: z
    .strictObject(ruleFields)
    .optional()
    .describe('What is added after a substantial dose, when no item of the record looks at the skin'),
  ifMissed: text.optional().describe('What to do when a date is passed, for items that do not say'),
});
