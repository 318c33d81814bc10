import { COMMON_PRACTICE, define } from '../define.js';

/** Wording of the tally findings. */
export const tallyWording = define({
  'device.kind-unknown': {
    severity: 'warning',
    message: "'{kind}' ({device}) is no kind of device that is known here, and no family is given.",
    remedy: '{suggestion}',
    basis: COMMON_PRACTICE,
  },
});
