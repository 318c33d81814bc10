import type { MessageKey } from '../../../message.js';

/** Einträge für Register. */
export const registryFindings = {
  'finding.registry.identifier-missing':
    'Fall {case}: dem Registereintrag für das Produkt „{device}“ fehlt eine Produktkennung.',
  'remedy.registry.identifier-missing': 'Scannen Sie das Etikett, oder geben Sie udi an.',
  'finding.registry.lot-missing':
    'Fall {case}: dem Registereintrag für das Produkt „{device}“ fehlt eine Chargen- oder Seriennummer.',
  'remedy.registry.lot-missing': 'Scannen Sie das Etikett, oder geben Sie lot oder serial an.',
  'finding.registry.placed-missing':
    'Fall {case}: dem Registereintrag für das Produkt „{device}“ fehlt der Tag, an dem es eingelegt wurde.',
  'remedy.registry.placed-missing': 'Geben Sie carried.date an, so genau es bekannt ist.',
  'finding.registry.held-back': 'Fall {case} geht an kein Register: Fehler in seiner Akte: {count}.',
  'remedy.registry.held-back': 'Beheben Sie, was hier genannt ist, und erstellen Sie die Einträge erneut.',
  'finding.registry.preliminary': 'Fall {case} wartet: sein Bericht ist vorläufig.',
  'remedy.registry.preliminary': 'Erstellen Sie die Einträge erneut, sobald der Bericht endgültig ist.',
  'finding.registry.newer-version':
    'Fall {case}: Version {version} ist ebenfalls unter den Dateien und zählt statt dieser.',
  'remedy.registry.newer-version': 'Es ist nichts zu tun.',
  'finding.registry.given-twice':
    'Fall {case} ist mehrfach und wortgleich unter den Dateien; er zählt einmal.',
  'remedy.registry.given-twice': 'Es ist nichts zu tun.',
  'finding.registry.version-twice':
    'Fall {case}: zwei verschiedene Akten geben an, Version {version} davon zu sein.',
  'remedy.registry.version-twice':
    'Lassen Sie die weg, die nicht gilt, oder geben Sie der späteren die nächste Version.',
  'finding.registry.kind-unlisted':
    'Fall {case}: unter den Worten „{kind}“ ist keine Art von Eingriff bekannt, also kann einem Register nicht gesagt werden, was getan wurde.',
  'remedy.registry.kind-unlisted':
    'Schreiben Sie die Art, wie es im Fach üblich ist, etwa nephrostomy exchange oder caval filter insertion.',
  'finding.registry.patient-numbers':
    'Die Person hat mehrere Nummern, und nichts sagt, nach welcher das Register geht.',
  'remedy.registry.patient-numbers':
    'Setzen Sie patientSystem in den Registereinstellungen der Standortkonfiguration.',
  'finding.registry.patient-number-missing':
    'Die Person hat keine oder mehrere Nummern des Systems, nach dem das Register geht ({system}).',
  'remedy.registry.patient-number-missing':
    'Geben Sie die eine Nummer dieses Systems in patient.identifiers an.',
  'finding.registry.withheld':
    'Produkt „{device}“: {field} geht nicht an das Register, denn getippter Text kann eine Person nennen, und nichts sonst belegt ihn.',
  'remedy.registry.withheld':
    'Scannen Sie das Etikett; oder führen Sie den Text im Produktkatalog oder unter allowed in den Registereinstellungen.',
  'finding.registry.key-missing':
    'Das Register „{registry}“ hat kein Geheimnis für Pseudonyme: diese Ausgabe lässt sich mit keiner anderen verknüpfen.',
  'remedy.registry.key-missing':
    'Setzen Sie key in den Registereinstellungen der Standortkonfiguration (env:NAME oder file:PATH).',
  'finding.registry.key-newline':
    'Das Geheimnis des Registers „{registry}“ ({key}) endet mit einem Zeilenumbruch, der als Teil davon gilt.',
  'remedy.registry.key-newline':
    'Setzen Sie keyEndsInNewline: true, wo damit schon Pseudonyme gebildet wurden; sonst schreiben Sie die Datei ohne Zeilenumbruch.',
  'finding.registry.no-device': 'Fall {case} enthält kein Produkt, das ein Register führen würde.',
  'remedy.registry.no-device': 'Es ist nichts zu tun.',
  'finding.registry.element-missing':
    'Fall {case}: das Register kommt ohne „{element}“ des Produkts „{device}“ nicht aus.',
  'remedy.registry.element-missing':
    'Geben Sie es in der Akte an; die Definition des Registers nennt, was es verlangt.',
  'finding.registry.element-wanted':
    'Fall {case}: das Register hätte gern „{element}“ des Produkts „{device}“.',
  'remedy.registry.element-wanted': 'Geben Sie es in der Akte an, wo es bekannt ist.',
  'finding.registry.value-not-taken':
    'Fall {case}, Produkt „{device}“: das Register nimmt „{value}“ als „{element}“ nicht an.',
  'remedy.registry.value-not-taken':
    'Berichtigen Sie die Akte; oder bitten Sie das Register um eine Definition, die diesen Wert enthält.',
  'finding.registry.value-too-long':
    'Fall {case}, Produkt „{device}“: „{element}“ ist länger, als das Register annimmt ({count} Zeichen).',
  'remedy.registry.value-too-long': 'Berichtigen Sie die Akte, oder fragen Sie das Register, was zu tun ist.',
  'finding.registry.few-alike':
    'Fall {case}: weniger als {count} Personen gleichen sich in dem, was das Register nennt; Daten und Alter werden darum ungenauer gesendet.',
  'remedy.registry.few-alike': 'Es ist nichts zu tun.',
  'finding.registry.too-few-alike':
    'Fall {case}: auch mit den gröbsten Daten und Altersangaben gleichen sich weniger als {count} Personen; die Definition des Registers hält ihn zurück.',
  'remedy.registry.too-few-alike':
    'Er geht mit einem späteren Senden von selbst hinaus, sobald es mehr sind.',
  'finding.registry.refused':
    'Fall {case}: das Register hat den Eintrag für das Produkt „{device}“ abgelehnt ({code}): {says}',
  'remedy.registry.refused': '{remedy} Danach casetally registry send: er geht als nächste Version hinaus.',
  'finding.registry.not-answered':
    'Fall {case}: in der Antwort des Registers fehlt der Eintrag für das Produkt „{device}“.',
  'remedy.registry.not-answered':
    'Fragen Sie das Register, oder senden Sie ihn noch einmal: casetally registry resend.',
  'finding.registry.answer-unknown-entry':
    'Zeile {line} der Antwort betrifft einen Eintrag, der nicht in dieser Lieferung ist.',
  'remedy.registry.answer-unknown-entry': 'Fragen Sie das Register; durch diese Zeile wurde nichts geändert.',
  'finding.registry.answer-other-version':
    'Zeile {line} der Antwort betrifft Version {version} eines Eintrags; in dieser Lieferung ging Version {sent} hinaus.',
  'remedy.registry.answer-other-version': 'Es ist nichts zu tun; durch diese Zeile wurde nichts geändert.',
  'finding.registry.answer-other-digest': 'Die Antwort betrifft andere Bytes, als die Lieferung {batch} hat.',
  'remedy.registry.answer-other-digest':
    'Fragen Sie das Register, was es erhalten hat; es wurde nichts geändert.',
  'finding.registry.answer-incomplete':
    'Die Antwort auf die Lieferung {batch} endet, bevor sie vollständig ist; {count} ihrer Zeilen wurden gelesen.',
  'remedy.registry.answer-incomplete':
    'Holen Sie die ganze Antwort, und gleichen Sie erneut ab: was gelesen wurde, bleibt.',
  'finding.registry.answer-unreadable': 'Zeile {line} der Antwort kann nicht gelesen werden: {why}',
  'remedy.registry.answer-unreadable':
    'Holen Sie die Antwort noch einmal; die anderen Zeilen wurden gelesen.',
  'finding.registry.waits-for-answer':
    'Fall {case}: der Eintrag für das Produkt „{device}“ hat sich geändert und wartet, bis das Register auf die Version davor geantwortet hat.',
  'remedy.registry.waits-for-answer':
    'casetally registry reconcile, sobald die Antwort da ist; dann erneut senden.',
  'finding.registry.not-mended':
    'Fall {case}: das Register hat den Eintrag für das Produkt „{device}“ abgelehnt ({code}), und seine Akte ist seither unverändert.',
  'remedy.registry.not-mended':
    'Beheben Sie, was das Register nennt; oder, wo das Register irrte, casetally registry resend --refused.',
} as const satisfies Partial<Record<MessageKey, string>>;
