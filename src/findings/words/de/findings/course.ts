import type { MessageKey } from '../../../message.js';

/** Der Verlauf, an zwei Stellen erzählt. */
export const courseFindings = {
  'remedy.clinical.status-differs':
    'Setzen Sie case.status auf „{status}“, mit case.reason, oder berichtigen Sie den Text.',
  'remedy.clinical.plan-differs':
    'Berichtigen Sie die falsche Stelle, oder nehmen Sie die Warnung mit dem Grund der Änderung an.',
  'remedy.clinical.prophylaxis-differs':
    'Berichtigen Sie den Text, oder tragen Sie unter drugs ein, was gegeben wurde, mit der Zeit.',
  'remedy.clinical.allergy-unsaid':
    'Tragen Sie sie unter before.allergies ein, oder sagen Sie im Text, dass sie ausgeschlossen wurde.',
  'remedy.clinical.severity-differs': 'Berichtigen Sie den Schweregrad oder die genannte Stelle.',
  'remedy.clinical.device-unlisted':
    'Tragen Sie es unter devices mit seinen Ereignissen ein, oder sagen Sie im Text, dass es schon lag, geplant war oder nicht verwendet wurde.',
  'remedy.clinical.complication-device':
    'Berichtigen Sie die Komplikation, oder tragen Sie das Produkt unter devices ein (mit carried, wenn es in einem früheren Fall eingelegt wurde).',
  'remedy.clinical.drug-unsaid':
    'Tragen Sie es unter drugs mit der Dosis ein, oder berichtigen Sie das Mittel.',
} satisfies Partial<Record<MessageKey, string>>;
