import { define } from '../define.js';

/** Wording of the record findings. */
export const recordWording = define({});
