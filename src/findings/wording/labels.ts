import { define } from '../define.js';

/** Wording of the labels findings. */
export const labelWording = define({});
