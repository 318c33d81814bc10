import { z } from 'zod';
import { coded, count, key, quantity, text } from './fields.js';

/** Side of the body. */
export const side = z.enum(['left', 'right', 'both', 'midline']);

/** A way into the body. */
export const accessSchema = z.strictObject({
  key,
  site: coded.describe('Vein, artery, calyx, skin site'),
  side: side.optional(),
  approach: text.optional().describe('Antegrade, retrograde, subcostal, transhepatic …'),
  guidance: z
    .array(
      z.enum([
        'ultrasound',
        'fluoroscopy',
        'computed tomography',
        'cone-beam computed tomography',
        'magnetic resonance',
        'endoscopy',
        'palpation',
      ]),
    )
    .optional(),
  passes: count.optional().describe('Needle passes'),
  closure: text.optional().describe('How it was closed at the end'),
  note: text.optional(),
});

const flow = z.enum(['none', 'slow', 'normal', 'free']);

/** A result in any unit that is measured at a place. */
const anyQuantity = quantity(
  '14 mmHg',
  'pressure',
  'length',
  'area',
  'volume',
  'flow',
  'ratio',
  'temperature',
  'duration',
  'count',
);

/** What was treated, drained or sampled: a lesion, vessel, duct, lumen or cavity. */
export const targetSchema = z.strictObject({
  what: coded,
  side: side.optional(),
  lesion: coded.optional(),
  length: quantity('22 mm', 'length').optional(),
  diameter: quantity('6 mm', 'length').optional().describe('Of the healthy vessel or duct beside it'),
  narrowingBefore: quantity('95 %', 'ratio').optional(),
  narrowingAfter: quantity('10 %', 'ratio').optional(),
  lumenBefore: quantity('1.2 mm', 'length').optional(),
  lumenAfter: quantity('5.4 mm', 'length').optional(),
  flowBefore: flow.optional(),
  flowAfter: flow.optional(),
  pressureBefore: quantity('22 mmHg', 'pressure').optional(),
  pressureAfter: quantity('8 mmHg', 'pressure').optional(),
  measures: z
    .array(z.strictObject({ what: coded, before: anyQuantity.optional(), after: anyQuantity.optional() }))
    .optional()
    .describe('Other things measured before and after: pressure gradient, volume, peak velocity …'),
  success: z
    .enum(['successful', 'partially successful', 'unsuccessful'])
    .optional()
    .describe('Technical success'),
  note: text.optional(),
});
