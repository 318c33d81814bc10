import { define } from '../define.js';

/** Wording of the conformance findings. */
export const conformanceWording = define({});
