import { COMMON_PRACTICE, define } from '../define.js';

/** Wording of findings about reactions to what was given. */
export const reactionWording = define({
  'clinical.reaction-without-complication': {
    severity: 'warning',
    message: "A reaction to '{given}' is marked, and no complication tells of it.",
    remedy:
      "Add the reaction to 'complications' with its time, severity and treatment; or take the mark away if there was none.",
    basis: COMMON_PRACTICE,
  },
  'clinical.complication-without-reaction': {
    severity: 'warning',
    message:
      "The complication '{what}' is an allergic reaction, and nothing that was given is marked with it.",
    remedy:
      "Set 'reaction' at the drug or contrast that it followed, or name what is suspected in 'suspect' of the complication.",
    basis: COMMON_PRACTICE,
  },
});
