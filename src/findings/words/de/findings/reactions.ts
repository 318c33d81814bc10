import type { MessageKey } from '../../../message.js';

/** Reaktionen auf das Gegebene. */
export const reactionFindings = {
  'remedy.clinical.reaction-without-complication':
    'Tragen Sie die Reaktion unter „complications“ mit Zeit, Schweregrad und Behandlung ein; gab es keine, streichen Sie den Vermerk.',
  'remedy.clinical.complication-without-reaction':
    'Setzen Sie „reaction“ an dem Arzneimittel oder Kontrastmittel, auf das sie folgte, oder nennen Sie den Verdacht in „suspect“ der Komplikation.',
} satisfies Partial<Record<MessageKey, string>>;
