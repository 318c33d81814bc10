/*
 * What one dose report may hold. An irradiation event with all the parameters of its template has about 500 elements in
 * 15 kB, of which about 180 are read (counted on made-up ones), so that this is room for 330 of them with all, and for
 * more with fewer (common practice, no source). The library takes about 10 µs and 0.5 kB for each that is read.
 */

/** Bytes of a file. */
export const MAX_DOSE_BYTES = 16 * 1024 * 1024;
/** Bytes of a data set, after inflating it. */
export const MAX_DATA_BYTES = 16 * 1024 * 1024;
/** Elements and items of a data set. */
export const MAX_ELEMENTS = 330_000;
/** Those that are left once content items that nobody reads are left out, and values parted by a backslash. */
export const MAX_READ_ELEMENTS = 60_000;
/** Bytes of one value. Texts that are read have up to 64 characters or 16 bits of length (PS3.5, 6.2); longer ones are left out. */
export const MAX_VALUE_BYTES = 65_535;
/** Sequences within sequences: TID 10001 with all that it includes has about 12. */
export const MAX_DEPTH = 32;
/** Files that are held against each other at once. */
export const MAX_FILES = 40;
