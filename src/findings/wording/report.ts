import { define } from '../define.js';

/** Wording of the report findings. */
export const reportWording = define({});
