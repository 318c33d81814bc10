import fc from 'fast-check';

/** Set in CI alone: random cases follow the commit there, so that what failed fails again. */
const seed = process.env['CASETALLY_SEED'];
if (seed !== undefined) fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(seed) });
