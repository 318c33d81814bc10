import type { MessageKey } from '../../../message.js';

/** Was nicht auffindbar ist. */
export const missingFindings = {
  'remedy.tally.missing':
    'Befolgen Sie die örtliche Vorgabe für Fehlendes; nehmen Sie diese Zeile an, sobald Patient und Team wissen, was getan wurde.',
  'finding.tally.missing-accounted':
    '{what} steht unter „missing“, und Ereignisse oder „left“ sagen, wo es ist.',
  'remedy.tally.missing-accounted':
    'Streichen Sie die Zeile unter „missing“, oder die Entfernung oder die Zeile unter „left“, die nicht stimmt.',
} satisfies Partial<Record<MessageKey, string>>;
