import { z } from 'zod';

const text = z.string().trim().min(1);
const address = z.string().regex(/^(urn:|https?:\/\/)\S+$/);

/**
 * What a registry may receive and under which keys. The legal basis is the site's to state; the narrowest
 * setting is the default of every field.
 */
export const registrySchema = z.strictObject({
  name: z.string().min(1).describe('For people'),
  key: z
    .string()
    .regex(/^(env:[A-Z_][A-Z0-9_]*|file:.+)$/)
    .optional()
    .describe(
      'Where the secret for pseudonyms is: env:NAME or file:PATH, relative to this file. One secret a registry',
    ),
  keyId: z
    .string()
    .regex(/^[A-Za-z0-9-]{1,20}$/)
    .default('k1')
    .describe('Name of the secret in use, part of each pseudonym'),
  formerKeys: z
    .array(
      z.strictObject({
        key: z.string().regex(/^(env:[A-Z_][A-Z0-9_]*|file:.+)$/),
        keyId: z.string().regex(/^[A-Za-z0-9-]{1,20}$/),
      }),
    )
    .prefault([])
    .describe('Secrets that were used before, to write a table of old and new pseudonyms'),
  keyEndsInNewline: z
    .boolean()
    .optional()
    .describe(
      'true: the file of the secret ends in a line break that is part of it, as earlier pseudonyms were made with it; false: such a file is refused',
    ),
  definition: text
    .optional()
    .describe(
      'File that says what the registry takes, in which form, and how it answers; relative to this file. Needed to send',
    ),
  destination: text
    .optional()
    .describe('Which of the destinations the registry is, where its definition asks for a server'),
  folder: text
    .optional()
    .describe(
      'Where batches are put for the registry, where its definition asks for a folder; relative to this file',
    ),
  answers: text
    .optional()
    .describe('Folder in which the answers of the registry are found; relative to this file'),
  unit: text
    .optional()
    .describe(
      'Name or number of the unit, of which its pseudonym is made; that of the organization when absent',
    ),
  pseudonymSystem: address.default('urn:casetally:registry-pseudonym'),
  patientSystem: address
    .optional()
    .describe(
      "Numbering system of the patient's number that pseudonyms are made of; needed where a patient has several",
    ),
  allowed: z
    .strictObject({
      makers: z.array(text).prefault([]),
      models: z.array(text).prefault([]),
      references: z.array(text).prefault([]),
    })
    .prefault({})
    .describe(
      'Makers, models and catalogue numbers that may be named though the catalogue of devices does not have them: typed text may hold anything',
    ),
  dates: z.enum(['year', 'month', 'day']).default('month').describe('Precision of dates'),
  serials: z
    .enum(['leave out', 'pseudonym', 'keep'])
    .default('leave out')
    .describe('Serial numbers point at a person'),
  lots: z.enum(['leave out', 'keep']).default('keep').describe('Lot numbers are needed for recalls'),
  ages: z
    .enum(['leave out', 'five years', 'years'])
    .default('five years')
    .describe('Ages over 89 are always one group'),
});

export type RegistryOptions = z.output<typeof registrySchema> & {
  /** Under which our code systems are published; `OWN_BASE` when absent. */
  readonly canonical?: string;
};

/** A secret that keeps pseudonyms apart from those of other registries, with the name that it goes by. */
export interface PseudonymKey {
  readonly id: string;
  readonly secret: Uint8Array;
}
