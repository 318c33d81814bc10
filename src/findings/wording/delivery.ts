import { define } from '../define.js';

/** Wording of the delivery findings. */
export const deliveryWording = define({});
