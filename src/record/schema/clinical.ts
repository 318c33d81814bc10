import { z } from 'zod';
import {
  calendarDay,
  coded,
  consoleTime,
  count,
  decimal,
  identifier,
  key,
  noneOr,
  quantity,
  type TimeFields,
  text,
  yesNo,
} from './fields.js';

/** A finding of the case in words, tied to a target where it is about one. */
export const findingSchema = z.strictObject({
  text,
  about: key.optional(),
  codes: z.array(z.strictObject({ system: text, code: text, display: text.optional() })).optional(),
});

/**
 * A path that cannot lead out of its folder on any system: names of letters, digits, blanks and `._()-` that begin with
 * a letter, a digit or `_`, parted by `/`.
 */
const PICTURE_FILE =
  /^(?:[\p{L}\p{N}_][\p{L}\p{M}\p{N} ._()-]*\/)*[\p{L}\p{N}_][\p{L}\p{M}\p{N} ._()-]*\.(?:[Jj][Pp][Ee]?[Gg]|[Pp][Nn][Gg])$/u;

/** Pictures kept. */
export function imagesSchema({ moment }: TimeFields) {
  return z.strictObject({
    key: key.optional(),
    study: z
      .string()
      .regex(/^[0-2](\.(0|[1-9]\d*))+$/)
      .describe('DICOM Study Instance UID'),
    series: z
      .string()
      .regex(/^[0-2](\.(0|[1-9]\d*))+$/)
      .optional(),
    description: text.optional(),
    at: moment.optional(),
    file: z
      .string()
      .regex(PICTURE_FILE)
      .optional()
      .describe('Picture for the full report: path of a JPEG or PNG file from the folder of the case file'),
  });
}

/** Contrast given. */
export function contrastSchema({ moment }: TimeFields) {
  return noneOr(
    z.strictObject({
      agent: coded,
      concentration: quantity('300 mg/mL', 'massConcentration')
        .optional()
        .describe('Iodine or gadolinium per volume'),
      volume: quantity('40 mL', 'volume'),
      route: z.enum([
        'intra-arterial',
        'intravenous',
        'into a duct or tract',
        'into the urinary tract',
        'into a cavity',
        'oral',
      ]),
      at: moment.optional(),
      reaction: text.optional(),
    }),
  );
}

/** Radiation, from the console or dose report. */
export const radiationSchema = z.union([
  z.literal('none'),
  z.strictObject({
    kermaAreaProduct: quantity('4.2 Gy·cm2', 'kermaArea').optional(),
    airKerma: quantity('212 mGy', 'kerma').optional().describe('At the reference point'),
    fluoroscopyTime: consoleTime.optional().describe('Such as 5.5 min, 330 s or 5:30'),
    frames: count.optional(),
    peakSkinDose: quantity('1.1 Gy', 'kerma').optional(),
    doseLengthProduct: quantity('386 mGy·cm', 'kermaLength')
      .optional()
      .describe('Of CT, all scans of the case together'),
    ctDoseIndex: quantity('8.4 mGy', 'kerma')
      .optional()
      .describe('CTDIvol; the mean where the scanner gives one for each scan'),
    earlier: z
      .array(
        z.strictObject({
          case: identifier.optional(),
          date: calendarDay,
          airKerma: quantity('1.2 Gy', 'kerma').optional(),
          kermaAreaProduct: quantity('80 Gy·cm2', 'kermaArea').optional(),
        }),
      )
      .optional()
      .describe('Earlier cases of this patient whose dose counts together with this one'),
    system: text.optional().describe('Which room or machine'),
    note: text.optional(),
  }),
]);

/** Samples taken. */
export function specimensSchema({ moment }: TimeFields) {
  return noneOr(
    z.strictObject({
      key: key.optional(),
      what: coded.describe('Bile, pus, core, aspirate …'),
      from: key.optional().describe('Target it came from'),
      count: count.optional(),
      volume: quantity('20 mL', 'volume').optional(),
      appearance: text.optional(),
      at: moment.optional(),
      sentFor: text.optional(),
      container: text.optional(),
      identifier: identifier.optional(),
    }),
  );
}

/** What went wrong. */
export function complicationsSchema({ when }: TimeFields) {
  return noneOr(
    z.strictObject({
      what: coded,
      at: when.optional(),
      severity: z.enum(['mild', 'moderate', 'severe']).optional(),
      grade: z
        .strictObject({
          scale: z.enum(['CIRSE 2017', 'CIRSE 2025', 'SIR 2017', 'Clavien-Dindo']),
          grade: z.union([text, z.number().transform(String)]),
        })
        .optional(),
      device: key.optional(),
      target: key.optional(),
      suspect: coded
        .optional()
        .describe(
          'Of an allergic or contrast reaction: the drug, contrast or material that it is put down to',
        ),
      certainty: z
        .enum(['unconfirmed', 'confirmed'])
        .optional()
        .describe('Whether the allergy has been confirmed; unconfirmed when absent'),
      action: text.optional(),
      treatment: z
        .enum([
          'none',
          'nominal',
          'same session',
          'drugs',
          'transfusion',
          'intervention',
          'intervention under general anaesthesia',
          'intensive care',
        ])
        .optional(),
      stay: z
        .enum([
          'not prolonged',
          'prolonged under 24 hours',
          'prolonged under 48 hours',
          'prolonged over 48 hours',
        ])
        .optional(),
      harm: z.enum(['none', 'temporary', 'permanent mild', 'permanent severe', 'death']).optional(),
      result: text.optional().describe('State at the end of the case'),
    }),
  );
}

/** How it went. */
export const outcomeSchema = ({ when }: TimeFields) =>
  z.strictObject({
    overall: z.enum(['successful', 'partially successful', 'unsuccessful']),
    text: text.optional(),
    condition: text.optional().describe('Of the patient on leaving the room'),
    disposition: text.optional().describe('Where to, and how watched'),
    died: when.optional().describe('The patient died, during the case or after it: the time, or the day'),
    coroner: yesNo
      .optional()
      .describe('The death is reported to the coroner: devices then stay where they are, as they are'),
    followedBy: z
      .enum(['surgery', 'transfer', 'repeat'])
      .optional()
      .describe(
        'What follows because the case could not do it: open surgery, another hospital, another attempt',
      ),
    bloodLoss: z.union([z.enum(['none', 'minimal']), quantity('20 mL', 'volume')]).optional(),
    measurements: z
      .array(z.strictObject({ what: coded, value: decimal, unit: text.optional(), target: key.optional() }))
      .optional(),
    grades: z
      .array(
        z.strictObject({
          scale: text.describe('Name of the scale, with its year where there are several'),
          grade: z.union([text, z.number().transform(String)]),
          target: key.optional(),
        }),
      )
      .optional()
      .describe('Grades of the result by a named scale: reperfusion, leak, occlusion …'),
  });

/** A condition that a ward can measure, and what follows from it. */
export const criterionSchema = z.strictObject({
  measure: text.describe('Temperature, urine output, drain output, bilirubin, pain score …'),
  is: z.enum(['under', 'at most', 'at least', 'over', 'equal to', 'present', 'absent']),
  value: quantity(
    '0.5 mL/kg/h',
    'volumeRate',
    'volume',
    'flow',
    'temperature',
    'molarConcentration',
    'massConcentration',
    'cellCount',
    'ratio',
    'pressure',
    'duration',
    'count',
  ).optional(),
  over: quantity('48 hours', 'duration').optional().describe('How long it must hold'),
  action: text.describe('What follows: may come out, open it again, call'),
});

/** Something to do after the case. */
export function aftercareSchema({ term }: TimeFields) {
  return z.strictObject({
    key: key.optional(),
    do: text,
    device: key.optional(),
    due: term
      .optional()
      .describe('A date, or a span from the case such as 6 weeks or 4 hours; hours count from its end'),
    earliest: term.optional(),
    latest: term.optional(),
    when: text.optional().describe('The condition on which it is done'),
    criteria: z.array(criterionSchema).optional().describe('Conditions that a ward can measure and act on'),
    every: text.optional().describe('How often: 30 min, daily, 4 times a day'),
    for: text.optional().describe('How long, such as 4 hours: from the first time, else from the case'),
    by: z.enum([
      'ward',
      'referrer',
      'interventional radiology',
      'patient',
      'family doctor',
      'community nurse',
      'other',
    ]),
    call: text.optional().describe('At what, and whom'),
    ifMissed: text.optional(),
    urgent: yesNo.optional(),
  });
}

/** Advice in words, by reader, and whom to call. */
export const adviceSchema = z.strictObject({
  ward: z.array(text).optional(),
  referrer: z.array(text).optional(),
  patient: z.array(text).optional(),
  contact: text.optional().describe('Whom to call with a question or a problem'),
});
