import { define } from '../define.js';

/** Wording of the site findings. */
export const siteWording = define({});
