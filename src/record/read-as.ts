import type { z } from 'zod';
import { type Finding, sortFindings } from '../findings/finding.js';
import { beyondBounds } from './bounds.js';
import { findingsOf } from './issues.js';
import { fieldsOf } from './keys.js';
import { placed } from './parse.js';
import { decodeUtf8, type ReadText, readText, type Tree } from './read.js';
import { unmarked } from './tree.js';

/** What was read under a schema, with the data as they were typed; or the findings that say why not, with their places. */
export type ReadAs<T> =
  | { readonly data: T; readonly tree: Tree; readonly locate: ReadText['locate'] }
  | { readonly findings: readonly Finding[] };

/** Reads YAML or JSON, within the bounds of a record, as what a schema describes. */
export function readAs<T>(input: string | Uint8Array, schema: z.ZodType<T>): ReadAs<T> {
  const decoded = typeof input === 'string' ? { text: input } : decodeUtf8(input);
  if ('finding' in decoded) return { findings: [decoded.finding] };
  const { tree, findings, locate } = readText(unmarked(decoded.text));
  if (tree === undefined || findings.length > 0) return { findings: sortFindings(placed(findings, locate)) };
  const beyond = beyondBounds(tree);
  if (beyond.length > 0) return { findings: placed(beyond, locate) };
  const read = schema.safeParse(tree);
  if (read.success) return { data: read.data, tree, locate };
  const found = findingsOf(read.error.issues, tree, fieldsOf(schema));
  return { findings: sortFindings(placed(found, locate)) };
}
