import { z } from 'zod';
import type { When } from '../time.js';
import type { Dimension } from '../units.js';
import {
  type Coded,
  coded,
  identifier,
  key,
  noneOr,
  quantity,
  type TimeFields,
  text,
  vitalValue,
  yesNo,
} from './fields.js';
import { type Named, named, personName } from './name.js';

/** Who the case is about. */
export function patientSchema({ when }: TimeFields) {
  return z
    .strictObject({
      identifiers: z
        .array(identifier)
        .min(1)
        .describe('Record numbers that find this patient at the destinations'),
      name: personName.optional(),
      birthDate: when.optional(),
      sex: z
        .enum(['female', 'male', 'other', 'unknown'])
        .optional()
        .describe('Administrative sex, as FHIR has it'),
      weight: quantity('68 kg', 'mass').optional(),
      height: quantity('1.72 m', 'length').optional(),
      pregnant: z
        .enum(['yes', 'no', 'not asked', 'not applicable', 'unknown'])
        .optional()
        .describe('Answer to the pregnancy question before radiation'),
    })
    .transform(
      ({
        identifiers,
        name,
        ...rest
      }): typeof rest & { identifiers: typeof identifiers } & Partial<Named> => ({
        // In the place that it has in the record.
        identifiers,
        ...(name !== undefined && named(name)),
        ...rest,
      }),
    );
}

/** Who was there, under short keys that events and drugs refer to. */
export function teamSchema() {
  return z
    .strictObject({
      key: key.describe('Short name that other lines use'),
      role: z.enum([
        'operator',
        'assistant',
        'supervisor',
        'nurse',
        'radiographer',
        'anaesthetist',
        'referrer',
        'observer',
        'other',
      ]),
      name: personName,
      identifier: identifier.optional(),
      organization: text.optional(),
      phone: text.optional(),
    })
    .transform(
      ({ key: short, role, name, ...rest }): typeof rest & { key: string; role: typeof role } & Named => ({
        key: short,
        role,
        ...named(name),
        ...rest,
      }),
    );
}

/** What a laboratory value may be of. */
export const labDimensions = [
  'molarConcentration',
  'massConcentration',
  'cellCount',
  'ratio',
  'count',
  'duration',
  'flow',
  'clearance',
  'catalysis',
  'activityConcentration',
  'osmolality',
  'pressure',
] as const satisfies readonly Dimension[];

/** A laboratory value and when its sample was taken. */
function labSchema(when: TimeFields['when']) {
  return z.strictObject({
    what: coded.describe('INR, platelets, creatinine, haemoglobin, bilirubin …'),
    value: quantity('88 µmol/L', ...labDimensions),
    at: when.describe('When the sample was taken'),
  });
}

/** Values that came in after the case, where the record is finished later. */
export function afterSchema({ moment, when }: TimeFields) {
  return z.strictObject({
    labs: z.array(labSchema(when)).optional(),
    urine: z
      .array(z.strictObject({ volume: quantity('240 mL', 'volume'), from: moment, to: moment }))
      .optional(),
  });
}

/** How a condition stands, as far as the record says. */
export interface Course {
  readonly status?: 'active' | 'resolved' | 'history' | undefined;
  readonly since?: When | undefined;
  readonly until?: When | undefined;
}

/** A condition by its text or codes alone, or with its course. */
function conditionSchema(when: TimeFields['when']) {
  const course = z.strictObject({
    what: coded,
    status: z
      .enum(['active', 'resolved', 'history'])
      .optional()
      .describe('active: there now; resolved: over; history: in the past, whether over or not'),
    since: when.optional().describe('When it began or was found'),
    until: when.optional().describe('When it was over'),
  });
  return z.union([
    coded.transform((plain): Coded & Course => plain),
    course.transform(({ what, ...rest }): Coded & Course => ({ ...what, ...rest })),
  ]);
}

/** State before the case. */
export function beforeSchema({ moment, when }: TimeFields) {
  return z.strictObject({
    allergies: noneOr(
      z.strictObject({
        to: coded,
        reaction: text.optional(),
        severity: z.enum(['mild', 'moderate', 'severe']).optional(),
      }),
    ).optional(),
    labs: z.array(labSchema(when)).optional(),
    anticoagulants: noneOr(
      z.strictObject({
        drug: coded,
        dose: text.optional(),
        lastDose: when.optional(),
        plan: text.optional().describe('Bridging, or when to start again, as decided'),
      }),
    ).optional(),
    conditions: z
      .array(conditionSchema(when))
      .optional()
      .describe('Other conditions that matter to the case'),
    consent: z
      .strictObject({
        status: z.enum(['given', 'refused', 'not possible', 'emergency']),
        by: text.optional().describe('Who gave it: the patient, or for them'),
        takenBy: key.optional(),
        at: when.optional(),
        note: text.optional(),
      })
      .optional(),
    checklist: z
      .strictObject({
        signIn: moment.optional(),
        timeOut: moment.optional(),
        signOut: moment.optional(),
        note: text.optional(),
      })
      .optional(),
    fasting: z
      .strictObject({ food: when.optional(), clearFluids: when.optional(), note: text.optional() })
      .optional(),
    imaging: text.optional().describe('What earlier imaging showed'),
    earlierAttempts: z
      .array(
        z.strictObject({
          case: identifier.optional(),
          date: when.optional(),
          what: text,
          result: text.optional(),
        }),
      )
      .optional(),
    observations: text.optional().describe('Condition on arrival'),
  });
}

const anaesthesia = z.enum([
  'local anaesthesia only',
  'minimal sedation',
  'moderate sedation',
  'deep sedation',
  'regional anaesthesia',
  'general anaesthesia',
]);

/** Sedation or anaesthesia. */
export function sedationSchema({ moment }: TimeFields) {
  return z.union([
    z.literal('none'),
    z.strictObject({
      kind: anaesthesia.describe('As it was begun'),
      changes: z
        .array(z.strictObject({ at: moment, to: anaesthesia, why: text.optional() }))
        .optional()
        .describe('Changes of the anaesthesia during the case'),
      by: key.optional(),
      start: moment.optional(),
      end: moment.optional(),
      monitoring: text.optional(),
      note: text.optional(),
    }),
  ]);
}

/** Vital signs and bedside values during the case, as a series. */
export function vitalsSchema({ moment }: TimeFields) {
  return z.array(
    z.strictObject({
      at: moment,
      what: coded.describe('blood pressure, heart rate, oxygen saturation, activated clotting time …'),
      value: vitalValue,
    }),
  );
}

/** Drugs given, or `none`. */
export function drugsSchema({ moment }: TimeFields) {
  return noneOr(
    z.strictObject({
      drug: coded,
      dose: quantity('2 g', 'dose', 'mass', 'activity', 'volume'),
      strength: text.optional().describe('Such as 1 %, where the dose is a volume'),
      route: z.enum([
        'intravenous',
        'intra-arterial',
        'oral',
        'subcutaneous',
        'intramuscular',
        'local infiltration',
        'rectal',
        'inhaled',
        'topical',
        'into the tract',
        'other',
      ]),
      at: moment,
      by: key.optional(),
      for: z
        .enum([
          'prophylaxis',
          'premedication',
          'sedation',
          'analgesia',
          'local anaesthesia',
          'anticoagulation',
          'reversal',
          'spasm',
          'vasodilatation',
          'haemostasis',
          'thrombolysis',
          'fluid',
          'nausea',
          'allergic reaction',
          'other',
        ])
        .optional(),
      reaction: yesNo.optional().describe('Whether a reaction was seen'),
    }),
  );
}
