import { z } from 'zod';
import { type Finding, sortFindings } from '../findings/finding.js';
import { beyondBounds } from '../record/bounds.js';
import { findingsOf } from '../record/issues.js';
import { fieldsOf } from '../record/keys.js';
import { placed } from '../record/parse.js';
import { decodeUtf8, readText } from '../record/read.js';
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
  const decoded = typeof input === 'string' ? { text: input } : decodeUtf8(input);
  if ('finding' in decoded) return { findings: [decoded.finding] };
  const { tree, findings, locate } = readText(decoded.text.replace(/^\uFEFF/, ''));
  if (tree === undefined || findings.length > 0) return { findings: sortFindings(placed(findings, locate)) };
  const beyond = beyondBounds(tree);
  if (beyond.length > 0) return { findings: placed(beyond, locate) };
  const read = contributionSchema.safeParse(tree);
  if (read.success) return { contribution: { ...present(read.data), findings: [] }, findings: [] };
  const found = findingsOf(read.error.issues, tree, fieldsOf(contributionSchema));
  return { findings: sortFindings(placed(found, locate)) };
}

type Read = z.output<typeof contributionSchema>;

/** Without fields that are there and undefined. */
const present = (read: Read): Omit<Contribution, 'findings'> =>
  JSON.parse(JSON.stringify(read)) as Omit<Contribution, 'findings'>;
