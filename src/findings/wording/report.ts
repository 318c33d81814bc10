import { define } from '../define.js';

/** Wording of the report findings. */
export const reportWording = define({
  'report.illegal-character': {
    severity: 'warning',
    message: 'The text holds {characters}, which no report can carry; it is shown as U+FFFD.',
    remedy: 'Take the character out; often it came from a scanner or from copying.',
    basis: 'XML 1.0, section 2.2 (Char)',
  },
  'report.turning-character': {
    severity: 'warning',
    message:
      'The text holds {characters}, which turns the reading order of the text around it; it is shown as U+FFFD.',
    remedy: 'Take the character out; right-to-left scripts read rightly without it.',
    basis: 'Unicode Standard Annex 9, sections 2.1 to 2.4',
  },
  'report.hidden-character': {
    severity: 'warning',
    message: 'The text holds {characters}, which nobody can see; the report leaves it out.',
    remedy: 'Take the character out, so that the text is found by search.',
    basis: 'Unicode Technical Report 36, section 2 (visual security)',
  },
});
