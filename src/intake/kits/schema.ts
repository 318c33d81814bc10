import { z } from 'zod';
import { aftercareSchema } from '../../record/schema/clinical.js';
import { deviceSchema, eventSchema, leftShape } from '../../record/schema/devices.js';
import { key, text, timeFields } from '../../record/schema/fields.js';
import { drugsSchema, sedationSchema } from '../../record/schema/people.js';

const times = timeFields({}, () => {});

/** A device as it lies in a kit. What became of it, and which lot it is, only the case can say. */
const kitDevice = deviceSchema(times).pick({
  kind: true,
  family: true,
  description: true,
  codes: true,
  maker: true,
  model: true,
  reference: true,
  size: true,
  diameter: true,
  length: true,
  takesWire: true,
  takes: true,
  ratedPressure: true,
  material: true,
  concentration: true,
  count: true,
  implant: true,
  mri: true,
  udi: true,
  parts: true,
  note: true,
});

const [, drugList] = drugsSchema(times).options;
const [, sedation] = sedationSchema(times).options;

/** A kit of a site: what is put on the table for a kind of case, and what people may take over as it happens. */
export const kitSchema = z.strictObject({
  $schema: z.string().optional().describe('Address of the JSON Schema, for editors'),
  casetallyKit: z.union([z.literal(1), z.literal('1')]).describe('Version of the format of kits'),
  name: text.describe('What people call it'),
  caseKinds: z
    .array(text)
    .min(1)
    .optional()
    .describe('Kinds of case that it is for, as case.kind has them; every one when absent'),
  devices: z.record(key, kitDevice).describe('What lies on the table, under the keys of the record'),
  steps: z
    .array(eventSchema(times).omit({ at: true, by: true, specimen: true, image: true }))
    .optional()
    .describe('Usual steps: proposed as comments, never as events'),
  drugs: z
    .array(drugList.element.omit({ at: true, by: true, reaction: true }).partial({ dose: true, route: true }))
    .optional()
    .describe('Usual drugs: proposed as comments, never as given'),
  aftercare: z.array(aftercareSchema(times)).optional().describe('Usual aftercare: proposed as comments'),
  left: z
    .array(leftShape(times).omit({ count: true }))
    .optional()
    .describe('What usually stays, how it is set and when it comes out: proposed as comments'),
  sedation: sedation.pick({ kind: true, monitoring: true }).optional().describe('Proposed as a comment'),
});

/** Kits as JSON Schema (draft 2020-12), for editors. */
export function kitJsonSchema(): Record<string, unknown> {
  return {
    ...z.toJSONSchema(kitSchema, { io: 'input', reused: 'ref' }),
    $id: 'urn:casetally:kit:1',
    title: 'Casetally kit, version 1',
    description: 'What is put on the table for a kind of case, and what may be taken over as it happens.',
  };
}
