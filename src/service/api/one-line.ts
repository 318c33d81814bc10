import { z } from 'zod';

/**
 * Text without control characters (category Cc). They are written out, since the pattern stands in the OpenAPI document and
 * not every language knows classes of Unicode by name.
 */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const ONE_LINE = /^[^\u0000-\u001f\u007f-\u009f]*$/;

/** One line of text, with something in it. @param most characters that it may have */
export const line = (most: number) => z.string().trim().min(1).max(most).regex(ONE_LINE);
