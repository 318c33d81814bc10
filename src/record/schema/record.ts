import { z } from 'zod';
import type { Moment, TimeContext } from '../time.js';
import {
  adviceSchema,
  aftercareSchema,
  complicationsSchema,
  contrastSchema,
  findingSchema,
  imagesSchema,
  outcomeSchema,
  radiationSchema,
  specimensSchema,
} from './clinical.js';
import { deviceSchema, eventSchema, leftSchema, missingSchema } from './devices.js';
import { coded, count, identifier, key, type TimeFields, text, timeFields } from './fields.js';
import {
  afterSchema,
  beforeSchema,
  drugsSchema,
  patientSchema,
  sedationSchema,
  teamSchema,
  vitalsSchema,
} from './people.js';
import { accessSchema, targetSchema } from './places.js';
import { sourcesSchema } from './sources.js';

/** The case itself: numbers, day, kind, where. */
function caseSchema({ moment }: TimeFields) {
  return z.strictObject({
    id: text.describe(
      'The number this case goes by in the department; with the site it makes every identifier',
    ),
    accession: text.optional(),
    order: identifier.optional(),
    encounter: identifier.optional(),
    status: z.enum(['completed', 'stopped early', 'not done']),
    reason: coded.optional().describe('Why it was stopped or not done'),
    date: z
      .string()
      .regex(/^\d{4}-\d{2}-\d{2}$/)
      .describe('The day it started, YYYY-MM-DD'),
    timeZone: text.optional().describe('IANA zone, such as Europe/Lisbon; else the site gives it'),
    started: moment.optional(),
    ended: moment.optional(),
    kind: text.describe('biliary drainage, nephrostomy, caval filter retrieval …'),
    procedure: coded.optional().describe('What was done, in the words of the report title'),
    category: z.enum(['therapeutic', 'diagnostic']).optional(),
    urgency: z.enum(['elective', 'urgent', 'emergency']).optional(),
    location: z.strictObject({ name: text, identifier: identifier.optional() }).optional(),
    organization: z
      .strictObject({ name: text, identifier: identifier.optional(), phone: text.optional() })
      .optional(),
    session: count.optional().describe('1 for the first attempt, 2 for the second …'),
  });
}

/** Status and signature of the report. */
function reportSchema({ moment }: TimeFields) {
  return z.strictObject({
    status: z.enum(['preliminary', 'final', 'amended', 'appended', 'withdrawn']),
    version: count.optional(),
    author: key.describe('Team key of who answers for the report'),
    signedAt: moment.optional(),
    change: z
      .strictObject({
        of: text.optional().describe('Version that this one follows'),
        by: key.optional(),
        at: moment.optional(),
        why: text,
      })
      .optional(),
  });
}

/** A finding that a person has read and accepted. */
const acknowledgementSchema = z.strictObject({
  finding: text.describe('Code of the finding, such as size.wire-too-big'),
  about: text.optional().describe('Device key or path, when the code alone is too wide'),
  reason: text,
  by: key.optional(),
});

/** The record of one case. Built for one record at a time, since bare times depend on its date and zone. */
export function recordSchema(context: TimeContext, moved: (moment: Moment, days: number) => void = () => {}) {
  const times = timeFields(context, moved);
  return z.strictObject({
    $schema: z.string().optional().describe('Address of the JSON Schema, for editors'),
    casetally: z
      .union([z.literal(1), z.literal('1')])
      .transform(() => 1 as const)
      .describe('Version of the record format'),
    case: caseSchema(times),
    patient: patientSchema(times),
    team: z.array(teamSchema()).min(1),
    indication: z.strictObject({ text, conditions: z.array(coded).optional(), question: text.optional() }),
    planned: coded.optional(),
    before: beforeSchema(times).optional(),
    after: afterSchema(times).optional(),
    sedation: sedationSchema(times).optional(),
    vitals: vitalsSchema(times).optional(),
    drugs: drugsSchema(times).optional(),
    access: z.array(accessSchema).optional(),
    targets: z.record(key, targetSchema).optional(),
    devices: z.record(key, deviceSchema(times)).optional(),
    events: z.array(eventSchema(times)).optional(),
    findings: z.array(findingSchema).optional(),
    images: z.array(imagesSchema(times)).optional(),
    contrast: contrastSchema(times).optional(),
    radiation: radiationSchema.optional(),
    specimens: specimensSchema(times).optional(),
    complications: complicationsSchema(times).optional(),
    outcome: outcomeSchema(times).optional(),
    left: leftSchema(times).optional(),
    missing: z
      .array(missingSchema(times))
      .min(1)
      .optional()
      .describe('What cannot be found, in the patient or outside'),
    aftercare: z.array(aftercareSchema(times)).optional(),
    advice: adviceSchema.optional(),
    conclusion: text.optional(),
    acknowledged: z.array(acknowledgementSchema).optional(),
    report: reportSchema(times),
    sources: sourcesSchema(times).optional().describe('What no person typed, and where it came from'),
  });
}

/** A case record that has been read: quantities, times and codes in their typed form. */
export type CaseRecord = z.output<ReturnType<typeof recordSchema>>;
export type DeviceEntry = NonNullable<CaseRecord['devices']>[string];
export type CaseEvent = NonNullable<CaseRecord['events']>[number];
export type Target = NonNullable<CaseRecord['targets']>[string];
export type LeftEntry = Exclude<NonNullable<CaseRecord['left']>, 'none'>[number];
export type MissingEntry = NonNullable<CaseRecord['missing']>[number];
export type AftercareEntry = NonNullable<CaseRecord['aftercare']>[number];
export type VitalSign = NonNullable<CaseRecord['vitals']>[number];
export type DrugGiven = Exclude<NonNullable<CaseRecord['drugs']>, 'none'>[number];
export type ContrastGiven = Exclude<NonNullable<CaseRecord['contrast']>, 'none'>[number];
export type Complication = Exclude<NonNullable<CaseRecord['complications']>, 'none'>[number];
