import { define } from '../define.js';

/** Wording of the registry findings. */
export const registryWording = define({});
