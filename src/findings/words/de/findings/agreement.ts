import type { MessageKey } from '../../../message.js';

/** Zwei Stellen, die Verschiedenes sagen. */
export const agreementFindings = {
  'remedy.clinical.side-differs': 'Prüfen Sie die Bilder, und berichtigen Sie dann die falsche Stelle.',
  'remedy.clinical.side-missing': 'Ergänzen Sie die Seite oder das fehlende Ziel.',
  'remedy.clinical.contrast-differs': 'Berichtigen Sie die Gesamtmenge oder die Ereignisse.',
  'remedy.clinical.contrast-route-differs':
    'Berichtigen Sie den Weg, oder ergänzen Sie den fehlenden Zugang.',
  'finding.clinical.retained-without-complication':
    '{what} verbleibt unbeabsichtigt im Körper, und es ist keine Komplikation dokumentiert.',
  'remedy.clinical.retained-without-complication':
    'Führen Sie es unter complications auf, mit dem, was dagegen getan wurde.',
  'finding.clinical.own-case': 'Dieser Fall selbst ({case}) ist genannt, wo ein früherer hingehört.',
  'remedy.clinical.own-case': 'Schreiben Sie die Nummer des früheren Falls, oder streichen Sie die Angabe.',
  'finding.clinical.consent-refused':
    'Die Einwilligung wurde verweigert oder zurückgezogen, und der Eingriff wurde durchgeführt.',
  'remedy.clinical.consent-refused':
    'Berichtigen Sie den Status der Einwilligung (given, emergency, not possible) oder den Status des Falls.',
  'finding.clinical.not-done-with-events':
    'Der Fall ist als nicht durchgeführt dokumentiert, und „{what}“ ist darin dokumentiert.',
  'remedy.clinical.not-done-with-events':
    'Schreiben Sie „stopped early“ in case.status, wenn der Eingriff begonnen hatte; sonst streichen Sie, was nicht geschehen ist.',
  'remedy.clinical.outcome-differs': 'Berichtigen Sie das Gesamtergebnis oder die genannte Stelle.',
  'finding.clinical.death-differs':
    '{place} dokumentiert einen Tod ({death}); dies hier setzt einen lebenden Patienten voraus: {told}.',
  'remedy.clinical.death-differs':
    'Berichtigen Sie die falsche Stelle; streichen Sie, was nicht mehr zutrifft.',
  'remedy.clinical.complication-unsaid':
    'Tragen Sie sie unter complications ein, oder sagen Sie im Text, dass sie schon vorher bestand.',
  'remedy.clinical.fluoroscopy-longer':
    'Prüfen Sie Einheit und Wert der Durchleuchtungszeit sowie Beginn und Ende des Falls.',
  'remedy.clinical.radiation-unsaid': 'Ergänzen Sie die Werte der Konsole oder des Dosisberichts.',
  'remedy.clinical.haemoglobin-fall':
    'Suchen Sie nach einer Blutung, und dokumentieren Sie sie als Komplikation, oder nehmen Sie die Warnung mit dem an, was den Abfall erklärt.',
  'remedy.clinical.measurement-differs': 'Berichtigen Sie den falschen Wert.',
  'remedy.clinical.specimen-differs': 'Berichtigen Sie die Proben oder die Ereignisse.',
  'remedy.clinical.closure-differs':
    'Berichtigen Sie die Art des Verschlusses, oder ergänzen Sie das Produkt und seine Ereignisse.',
  'remedy.clinical.kind-differs':
    'Berichtigen Sie Art und Titel, oder ergänzen Sie die fehlenden Produkte und Ereignisse.',
  'remedy.clinical.level-differs': 'Prüfen Sie die Bilder, und berichtigen Sie dann die falsche Stelle.',
  'remedy.clinical.sex-differs':
    'Prüfen Sie, ob es der richtige Patient ist; berichtigen Sie Geschlecht oder Text, oder nehmen Sie die Warnung mit einem Grund an.',
  'remedy.clinical.age-differs':
    'Prüfen Sie, ob es der richtige Patient ist; berichtigen Sie das Geburtsdatum oder den Text.',
  'remedy.clinical.pregnancy-differs':
    'Fragen Sie noch einmal, und berichtigen Sie dann die Antwort oder den Text.',
  'remedy.clinical.entered-twice':
    'Streichen Sie einen Eintrag, oder berichtigen Sie Zeit oder Menge des zweiten.',
  'remedy.clinical.aftercare-device-out':
    'Nennen Sie das Produkt, das verbleibt, oder streichen Sie das Produkt aus dieser Aufgabe.',
  'remedy.tally.left-differs':
    'Sehen Sie beim Patienten nach, und berichtigen Sie dann die falsche Stelle, oder ergänzen Sie das Ereignis, das es geändert hat.',
  'remedy.tally.not-deployed':
    'Ergänzen Sie deploy, release oder detach nach dem Einbringen, bevor der Einführkatheter entfernt wird.',
  'remedy.tally.not-locked':
    'Verriegeln Sie die Schlaufe, und ergänzen Sie lock, oder sagen Sie in der Einstellung, dass sie unverriegelt blieb.',
  'remedy.tally.not-filled': 'Füllen Sie den Ballon, und ergänzen Sie inflate mit dem Volumen.',
  'remedy.tally.flushed-before':
    'Berichtigen Sie die Zeit der Spülung, oder ergänzen Sie die Spülung nach dem Einbringen.',
  'remedy.tally.other-side': 'Berichtigen Sie over oder through.',
} satisfies Partial<Record<MessageKey, string>>;
