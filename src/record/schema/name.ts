import { z } from 'zod';
import { text } from './fields.js';

/** A name in its parts, as record systems keep it. */
const nameParts = z.strictObject({
  family: text,
  given: z
    .union([text, z.array(text).min(1)])
    .transform(given => [given].flat())
    .optional(),
  prefix: text.optional().describe('Title before the name'),
  suffix: text.optional(),
});
export type NameParts = z.output<typeof nameParts>;

/** A name as it is written, or in parts: what is shown is one text either way. */
export const personName = z
  .union([text, nameParts])
  .describe('As one text, or as { family, given, prefix, suffix }');

/** A name as one text, and its parts where the record gives them. */
export interface Named {
  readonly name: string;
  readonly nameParts?: NameParts;
}

/** A name as one text, with its parts beside it. */
export function named(name: string | NameParts): Named {
  if (typeof name === 'string') return { name };
  const { prefix, given = [], family, suffix } = name;
  const words = [prefix, ...given, family, suffix].filter(word => word !== undefined);
  return { name: words.join(' '), nameParts: name };
}
