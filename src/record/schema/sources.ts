import { z } from 'zod';
import { type TimeFields, text } from './fields.js';

/** Where a value of a record can come from; what is not listed in `sources` was typed. */
export const sourceKinds = [
  'order',
  'kit',
  'dose report',
  'form',
  'scan',
  'line',
  'earlier case',
  'register',
] as const;

export type SourceKind = (typeof sourceKinds)[number];

/** Which values of the record no person typed, and what each came from. */
export function sourcesSchema({ moment }: TimeFields) {
  return z.array(
    z.strictObject({
      path: text.describe(
        'The value, as findings write paths: radiation.fluoroscopyTime, devices.drain; what lies within came along',
      ),
      from: z.enum(sourceKinds),
      at: moment.describe('When the source was made or last changed'),
      by: text
        .optional()
        .describe('Which one: name of the kit, number of the order, file of the dose report'),
    }),
  );
}
