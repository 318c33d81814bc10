import type { MessageKey } from '../../../message.js';

/** Eigene Berichtsvorlagen einer Einrichtung. */
export const templateFindings = {
  'finding.template.none': 'Der Ordner {folder} hat weder Aufbau (.yaml) noch Vorlage (.hbs).',
  'remedy.template.none':
    'Nennen Sie den Ordner, dessen Dateien ward.yaml heißen, oder wie die mitgelieferten Vorlagen, etwa style.hbs.',
  'finding.template.broken': '{why}',
  'remedy.template.broken':
    'Berichtigen Sie die Datei; Schlüssel der Abschnitte, Namen und Helfer stehen in templates/README.md.',
  'finding.template.drops':
    'Der Bericht für {audience} als {format} ({language}, Beispiel {example}) zeigt nicht mehr: {fact}.',
  'remedy.template.drops': 'Drucken Sie es wieder, mit der Beschriftung davor, wo alle Lesenden es sehen.',
  'finding.template.unsafe': 'Der Bericht für {audience} als {format} ist nicht sicher anzuzeigen: {why}.',
  'remedy.template.unsafe':
    'Drucken Sie mit zwei geschweiften Klammern, im Text und nicht in Attributen oder Stil; lassen Sie weg, was hier genannt ist.',
  'finding.template.unused': 'Die Vorlage {name} ersetzt keine mitgelieferte, und keine ruft sie auf.',
  'remedy.template.unused':
    'Suchen Sie einen Tippfehler im Namen, oder rufen Sie sie aus einer eigenen Vorlage auf.',
} satisfies Partial<Record<MessageKey, string>>;
