import type { MessageKey } from '../../../message.js';

/** Einträge für Aufträge, mit denen eine Akte beginnt. */
export const intakeOrderFindings = {
  'finding.intake.order-not-found':
    '{destination} hat keinen Auftrag, keine Accession-Nummer und keinen Aufenthalt mit der Nummer {number}.',
  'remedy.intake.order-not-found':
    'Prüfen Sie die Nummer; vergeben mehrere Systeme Auftragsnummern, schreiben Sie SYSTEM|NUMMER.',
  'finding.intake.order-several':
    '{number} ist bei {destination} die Nummer mehrerer Aufträge: {orders}. Keiner wurde übernommen.',
  'remedy.intake.order-several': 'Nennen Sie den gemeinten, als SYSTEM|NUMMER.',
  'finding.intake.order-void': '{destination} führt den Auftrag {number} als irrtümlich eingegeben.',
  'remedy.intake.order-void': 'Fragen Sie nach, wer den Auftrag erteilt hat.',
  'finding.intake.order-called-off': '{what} von {number} hat bei {destination} den Status {status}.',
  'remedy.intake.order-called-off': 'Fragen Sie beim Auftraggeber nach, ob der Eingriff noch gewünscht ist.',
  'finding.intake.order-without-patient':
    'Auftrag {number} nennt keinen Patienten, den {destination} herausgibt.',
  'remedy.intake.order-without-patient': 'Suchen Sie den Patienten des Auftrags im Patientenaktensystem.',
  'finding.intake.of-other-patient':
    '{destination} hat {count} Mal {what} geliefert, die zu einem anderen Patienten gehören oder keinen nennen; sie wurden übergangen.',
  'remedy.intake.of-other-patient':
    'Sagen Sie es den Betreuern des Servers: er sucht nicht nach dem Patienten, nach dem er gefragt wurde.',
  'finding.intake.not-answered':
    '{destination} hat {what} nicht geliefert: {why}. In der Akte steht darüber nichts.',
  'remedy.intake.not-answered': 'Sehen Sie im Patientenaktensystem nach, und tragen Sie ein, was dort steht.',
  'finding.intake.more-there': '{destination} hat mehr {what}, als gelesen wurden.',
  'remedy.intake.more-there': 'Sehen Sie im Patientenaktensystem nach, was hier fehlt.',
  'finding.intake.not-taken': '{what}: {count} nicht übernommen: {why}.',
  'remedy.intake.not-taken': 'Tragen Sie es von Hand ein, wo es für den Fall zählt.',
} as const satisfies Partial<Record<MessageKey, string>>;
