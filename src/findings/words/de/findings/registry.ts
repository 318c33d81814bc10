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
    'Setzen Sie keyEndsInNewline: yes, wo damit schon Pseudonyme gebildet wurden; sonst schreiben Sie die Datei ohne Zeilenumbruch.',
  'finding.registry.no-device': 'Fall {case} enthält kein Produkt, das ein Register führen würde.',
  'remedy.registry.no-device': 'Es ist nichts zu tun.',
} as const satisfies Partial<Record<MessageKey, string>>;
