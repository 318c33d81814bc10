import type { MessageKey } from '../../../message.js';

/** Fachwörter: Arten von Eingriffen, Familien von Mitteln, Einheiten. */
export const tradeFindings = {
  'finding.clinical.case-kind-unknown':
    '„{kind}“ ist keine hier bekannte Art von Eingriff: das Blutungsrisiko wird nicht eingestuft, einem Register kann nicht gesagt werden, was getan wurde, und es wird kein Code vergeben.',
  'remedy.clinical.case-kind-unknown': '{suggestion}',
  'finding.clinical.case-kind-read': 'Die Art des Eingriffs „{kind}“ wird als „{row}“ gelesen.',
  'remedy.clinical.case-kind-read':
    'Schreiben Sie die Art so, wie sie in der Tabelle steht, wenn etwas anderes gemacht wurde.',
  'finding.clinical.bleeding-class-unknown':
    'Das Blutungsrisiko von „{kind}“ wurde nicht eingestuft: {why}. INR, Thrombozyten und Fibrinogen wurden nicht an Grenzwerten geprüft, und letzte Gaben nur an den Pausen für niedriges Risiko.',
  'remedy.clinical.bleeding-class-unknown':
    'Schreiben Sie in der Konfiguration der Einrichtung unter clinical.bleedingRisk „{kind}: low“ oder „{kind}: high“, je nachdem, wie die Einrichtung diese Art von Eingriff beurteilt.',
  'remedy.clinical.allergy-cross':
    'Prüfen Sie beides. Wurde es wissentlich gegeben, nehmen Sie die Warnung mit dem Grund an und damit, wie Schaden vermieden wurde.',
  'remedy.clinical.allergy-device':
    'Prüfen Sie beides. Wurde es wissentlich verwendet, nehmen Sie die Warnung mit dem Grund an.',
} satisfies Partial<Record<MessageKey, string>>;
