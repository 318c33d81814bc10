import type { MessageKey } from '../../../message.js';

/** Dosen, Werte und Arzneimittel. */
export const doseFindings = {
  'remedy.clinical.value-unlikely':
    'Lesen Sie Wert und Einheit an der Quelle noch einmal ab. Daraus wird nichts berechnet.',
  'remedy.clinical.drug-dose-unlikely':
    'Prüfen Sie Dosis, Einheit und Konzentration; stimmen sie, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.drug-dose-by-weight':
    'Prüfen Sie Dosis, Einheit und Gewicht; stimmen sie, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.drug-dose-repeated':
    'Streichen Sie die doppelt eingetragene Dosis, oder berichtigen Sie ihre Zeit; wurden beide gegeben, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.route-unlikely':
    'Prüfen Sie Mittel und Weg; stimmen sie, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.strength-missing':
    'Ergänzen Sie strength, etwa 1 % oder 10 mg/mL, oder schreiben Sie die Dosis als Masse oder in IU.',
  'remedy.clinical.weight-missing': 'Ergänzen Sie patient.weight.',
  'remedy.clinical.heparin-after-hit':
    'Prüfen Sie beides. Verwenden Sie ein anderes Mittel zur Antikoagulation, zum Spülen oder zum Blocken; wurde es wissentlich gegeben, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.drug-condition':
    'Prüfen Sie Arzneimittel und Erkrankung; wurde es wissentlich gegeben, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.anticoagulant-differs':
    'Schreiben Sie an allen Stellen dasselbe: absetzen, weitergeben oder den Tag, an dem es wieder beginnt.',
  'remedy.clinical.anticoagulant-unsaid':
    'Tragen Sie es unter before.anticoagulants mit der letzten Gabe ein, oder sagen Sie im Text, dass es abgesetzt wurde.',
  'remedy.clinical.sedation-differs':
    'Prüfen Sie sedation (kind, by, start, end) und die dafür gegebenen Arzneimittel.',
} satisfies Partial<Record<MessageKey, string>>;
