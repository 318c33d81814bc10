import { define } from '../define.js';

/** Wording of the sizes findings. */
export const sizeWording = define({});
