import { define } from '../define.js';

/** Wording of the tally findings. */
export const tallyWording = define({});
