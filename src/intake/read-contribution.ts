import { z } from 'zod';
import type { Finding } from '../findings/finding.js';
import { readAs } from '../record/read-as.js';
import { sourceKinds } from '../record/schema/sources.js';
import type { Contribution, Typed } from './contribution.js';

const text = z.string().min(1);
const typed: z.ZodType<Typed> = z.lazy(() =>
  z.union([z.string(), z.boolean(), z.array(typed), z.record(z.string(), typed)]),
);

const contributionSchema = z.strictObject({
  from: z.enum(sourceKinds),
  at: text,
  by: text.optional(),
  about: z
    .strictObject({
      identifiers: z.array(z.strictObject({ system: text.optional(), value: text })).optional(),
      name: text.optional(),
      birthDate: text.optional(),
      sex: text.optional(),
      accession: text.optional(),
      study: text.optional(),
    })
    .optional(),
  values: z.array(
    z.strictObject({
      path: z.array(z.string()).min(1),
      value: typed,
      as: z.enum(['set', 'add', 'propose', 'propose-entry']),
      at: text.optional(),
      said: text.optional(),
    }),
  ),
});

/** Reads what another program gives as a source, in JSON or YAML; every fault is named with line and column. */
export function readContribution(input: string | Uint8Array): {
  readonly contribution?: Contribution;
  readonly findings: readonly Finding[];
} {
  const read = readAs(input, contributionSchema);
  if ('findings' in read) return read;
  return { contribution: { ...present(read.data), findings: [] }, findings: [] };
}

type Read = z.output<typeof contributionSchema>;

/** Without fields that are there and undefined. */
const present = (read: Read): Omit<Contribution, 'findings'> =>
  JSON.parse(JSON.stringify(read)) as Omit<Contribution, 'findings'>;
