import type { MessageKey } from '../../../message.js';

/** Was zwei geschrieben haben. */
export const deliveryConflictsFindings = {
  'finding.delivery.conflict':
    '{destination} hält einen anderen Stand dieses Falls ({status}); er wurde nicht überschrieben.',
  'remedy.delivery.conflict':
    'Vergleichen Sie die beiden Stände, unten Feld für Feld, jeweils mit den möglichen Wegen.',
  'finding.delivery.item-unreadable':
    'Was der Ausgang zu Eintrag {id} aufbewahrt, wurde geändert oder gekürzt: er ist nicht sendbar.',
  'remedy.delivery.item-unreadable':
    'Senden Sie den Fall neu aus seinem Protokoll; dann casetally outbox discard {id}. Den Rest prüft casetally outbox doctor.',
  'finding.delivery.written-at-once':
    '{destination} schrieb in diesem Augenblick etwas aus diesem Fall für jemand anderen, etwa den Patienten eines anderen Falls ({status}); nichts davon wurde geändert.',
  'remedy.delivery.written-at-once': 'Es wird von selbst noch einmal gesendet.',
  'finding.delivery.edited-there':
    '{address} wurde dort bearbeitet: {element} ist {held}; diese Fassung des Protokolls hat {sent}.',
  'remedy.delivery.edited-there':
    'Dortiges übernehmen: für die nächste Fassung ins Protokoll eintragen, dann casetally outbox discard ITEM. Dortiges überschreiben: casetally outbox retry ITEM --overwrite --by NAME --why TEXT.',
  'finding.delivery.held-otherwise':
    '{address} ist dort schon vorhanden: {element} ist {held}; dieses Protokoll hat {sent}.',
  'remedy.delivery.held-otherwise':
    'Dortiges übernehmen: das Protokoll berichtigen, dann casetally outbox discard ITEM. Dortiges ersetzen: das Protokoll als neue Fassung senden (report.status amended, eine höhere version).',
} satisfies Partial<Record<MessageKey, string>>;
