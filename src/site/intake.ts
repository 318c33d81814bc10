import { z } from 'zod';
import { readQuantity } from '../record/quantity.js';

/** Spans of a fixed length: a month is none. */
function isSpan(written: string): boolean {
  const read = readQuantity(written, ['duration']);
  return read.ok && !read.value.comparator && ['h', 'd', 'wk'].includes(read.value.code);
}

const age = z
  .string()
  .trim()
  .refine(text => text === 'off' || isSpan(text), {
    error: 'is not a span in hours, days or weeks, such as 30 days, nor off',
  })
  .optional();

/** How values come into records from sources. */
export const intakeSchema = z.strictObject({
  kits: z.string().trim().min(1).optional().describe('Folder of kits, relative to this file'),
  olderThan: z
    .strictObject({
      labs: age.describe('Laboratory values before the case; 30 days when absent'),
      weight: age.describe('90 days when absent'),
      height: age.describe('730 days when absent'),
      pregnant: age.describe('The answer about pregnancy; 2 days when absent'),
      anticoagulants: age.describe('30 days when absent'),
    })
    .prefault({})
    .describe(
      'Local policy: what is older before the case is proposed and not taken; off takes a limit away',
    ),
});
