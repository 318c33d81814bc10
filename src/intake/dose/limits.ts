/*
 * What one dose report may hold. A report of 500 irradiation events with all their parameters has about 100 000
 * elements in 3 MB (counted on made-up ones; common practice, no source).
 */

/** Bytes of a file. */
export const MAX_DOSE_BYTES = 16 * 1024 * 1024;
/** Bytes of a data set, after inflating it. */
export const MAX_DATA_BYTES = 16 * 1024 * 1024;
/** Elements and items of a data set. */
export const MAX_ELEMENTS = 150_000;
/** Sequences within sequences: TID 10001 with all that it includes has about 12. */
export const MAX_DEPTH = 32;
/** Files that are held against each other at once. */
export const MAX_FILES = 40;
