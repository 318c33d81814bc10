import type { MessageKey } from '../../../message.js';

const merge =
  'Lassen Sie die Doppelten am Ziel zusammenführen oder stilllegen, und senden Sie dann noch einmal.';
const which = 'Klären Sie, welche Ressource ({type}) gemeint ist, und verwenden Sie deren Kennung.';
const older = 'Verwenden Sie eine Adresse dieses Servers für FHIR R4 (4.0.1)';

/** Das Senden an ein Ziel. */
export const deliveryFindings = {
  'finding.delivery.address-unreadable':
    'Die Adresse „{address}“ ist keine http- oder https-Adresse eines FHIR-Servers.',
  'remedy.delivery.address-unreadable':
    'Schreiben Sie die Basisadresse vollständig, etwa https://fhir.example.org/r4.',
  'finding.delivery.address-not-plain':
    'Die Adresse bei {host} trägt einen Benutzernamen, eine Abfrage oder ein Fragment; eine Basisadresse hat nichts davon.',
  'remedy.delivery.address-not-plain':
    'Geben Sie die reine Basisadresse an; Zugangsdaten gehören als Verweis zum Ziel in der Datei der Einrichtung.',
  'finding.delivery.address-not-secure':
    'Die Adresse bei {host} ist http ohne Schutz: Patientendaten gingen für andere lesbar durchs Netz.',
  'remedy.delivery.address-not-secure':
    'Verwenden Sie https. Ohne Schutz wird http nur auf diesem Rechner selbst angenommen.',
  'finding.delivery.not-a-submission':
    'Was an {destination} gehen soll, ist kein FHIR-Bundle vom Typ transaction.',
  'remedy.delivery.not-a-submission':
    'Bereiten Sie den Fall neu vor, und senden Sie die entstandene submission.json.',
  'finding.delivery.circle':
    'Ressourcen des Falls verweisen im Kreis aufeinander; {destination} kann sie nicht einzeln annehmen.',
  'remedy.delivery.circle':
    'Setzen Sie mode des Ziels auf transaction, oder bitten Sie die Betreiber um Transaktionen.',
  'finding.delivery.over-limit': 'Die Sendung hat {size}; {destination} nimmt höchstens {limit}.',
  'remedy.delivery.over-limit':
    'Nennen Sie weniger Bilder, wenn es zu viele Bytes sind, oder erhöhen Sie die Grenze des Ziels, wenn der Server mehr annimmt.',
  'finding.delivery.refused': '{destination} hat die Sendung abgewiesen ({status}); dort ist nichts davon.',
  'remedy.delivery.refused': 'Beheben Sie, was der Server unten nennt, und senden Sie noch einmal.',
  'finding.delivery.too-large': '{destination} hat die Sendung als zu groß abgewiesen ({status}).',
  'remedy.delivery.too-large':
    'Nennen Sie weniger Bilder im Protokoll, oder lassen Sie die Grenze des Servers erhöhen.',
  'finding.delivery.redirected':
    '{destination} verweist auf eine andere Adresse ({status}); Umleitungen wird nicht gefolgt, nichts wurde weitergesendet.',
  'remedy.delivery.redirected':
    'Setzen Sie die Adresse des Ziels auf den wirklichen Ort des Servers, sobald Sie wissen, dass es Ihrer ist.',
  'finding.delivery.reference-not-found':
    '{destination} kennt unter einer Kennung, auf die der Fall verweist, niemanden oder nichts ({status}).',
  'remedy.delivery.reference-not-found':
    'Prüfen Sie die Kennungen von Patient, Auftrag, Aufenthalt und Team. Lassen Sie Fehlendes zuerst dort anlegen, oder lassen Sie den Fall den Patienten mitbringen: `references.patient: include` in den Einstellungen des Ziels.',
  'finding.delivery.target-missing':
    '{destination} hat unter der Kennung oder Adresse, auf die der Fall verweist, nichts ({type}). Nichts wurde gesendet.',
  'remedy.delivery.target-missing':
    'Prüfen Sie die Kennung. Dann einer von zwei Wegen: dort anlegen lassen ({type}), oder vom Fall mitbringen lassen, mit `references.{setting}: include` in den Einstellungen des Ziels.',
  'finding.delivery.target-several':
    '{destination} hat unter einer Kennung mehrere Ressourcen, {count} {type}: {addresses}. Nichts wurde gesendet.',
  'remedy.delivery.target-several':
    'Lassen Sie die Doppelten dort zusammenführen; Casetally wählt nicht zwischen ihnen.',
  'finding.delivery.target-merged':
    '{destination} hat {address} mit {other} zusammengeführt. Nichts wurde gesendet.',
  'remedy.delivery.target-merged': which,
  'finding.delivery.target-inactive':
    '{destination} führt {address} als nicht mehr verwendet. Nichts wurde gesendet.',
  'remedy.delivery.target-inactive': which,
  'finding.delivery.match-differs':
    '{address} bei {destination} weicht ab in {field}: {sent} im Protokoll, {held} dort.',
  'remedy.delivery.match-differs':
    'Prüfen Sie, ob die Nummer die richtige ist. Berichtigen Sie das Protokoll oder den Stand dort; senden Sie noch einmal.',
  'finding.delivery.match-near':
    '{address} bei {destination} stimmt fast überein in {field}: {sent} im Protokoll, {held} dort.',
  'remedy.delivery.match-near':
    'Wenn es stimmt: casetally outbox retry ITEM --accept {field} --by NAME --why TEXT.',
  'finding.delivery.not-compared':
    '{destination} nennt {what} nicht ({type}): es wurde nicht mit dem Protokoll verglichen.',
  'remedy.delivery.not-compared': 'Sehen Sie am Ziel nach, ob der Fall beim richtigen Patienten liegt.',
  'finding.delivery.case-of-another-patient':
    '{destination} hat diesen Fall unter einem anderen Patienten ({address}, {patient}).',
  'remedy.delivery.case-of-another-patient':
    'Ein Fall bleibt bei seinem Patienten. Zu einem anderen verschieben: casetally move OLD NEW.',
  'finding.delivery.partial':
    '{destination} hat nur einen Teil der Sendung angenommen oder sie nicht als Ganzes behandelt ({status}).',
  'remedy.delivery.partial': 'Sehen Sie unten nach, was dort liegt, bevor etwas noch einmal gesendet wird.',
  'finding.delivery.echoed':
    '{destination} hat die Sendung als Dokument abgelegt, statt sie auszuführen ({status}).',
  'remedy.delivery.echoed':
    'Die Adresse ist nicht die Basis eines FHIR-Servers, der Transaktionen annimmt: berichtigen Sie sie.',
  'finding.delivery.outcome-unknown':
    'Es ist nicht bekannt, ob {destination} die Sendung angenommen hat ({status}).',
  'remedy.delivery.outcome-unknown':
    'Tragen Sie den Fall nicht von Hand ein. Senden Sie ihn später noch einmal: was schon da ist, wird an seinen Kennungen gefunden.',
  'finding.delivery.several-matches':
    '{destination} hat mehrere Ressourcen unter einer Kennung des Falls und kann nicht wählen ({status}).',
  'remedy.delivery.several-matches': merge,
  'finding.delivery.several-held':
    '{destination} hat mehrere Ressourcen, {count} {resource}, mit derselben Kennung von {system}: {addresses}.',
  'remedy.delivery.several-held': merge,
  'finding.delivery.gone':
    'Etwas aus diesem Fall wurde bei {destination} entfernt ({status}); es wird nicht von selbst neu angelegt.',
  'remedy.delivery.gone': 'Klären Sie dort, warum es entfernt wurde, bevor Sie noch einmal senden.',
  'finding.delivery.throttled':
    '{destination} nimmt vorerst nichts mehr an ({status}); erbetene Wartezeit: {wait}.',
  'remedy.delivery.throttled': 'Senden Sie nach dieser Zeit noch einmal.',
  'finding.delivery.unreachable': '{destination} war nicht erreichbar: {cause}. Nichts wurde gesendet.',
  'remedy.delivery.unreachable': 'Prüfen Sie Adresse und Netz, und senden Sie dann noch einmal.',
  'finding.delivery.certificate':
    'Dem Zertifikat von {destination} wird nicht vertraut, oder es gilt für einen anderen Namen. Nichts wurde gesendet.',
  'remedy.delivery.certificate':
    'Prüfen Sie die Adresse; bei einer privaten Zertifizierungsstelle nennen Sie deren Zertifikat am Ziel.',
  'finding.delivery.unauthorised': '{destination} nimmt die Zugangsdaten nicht an ({status}).',
  'remedy.delivery.unauthorised':
    'Prüfen Sie die Autorisierung des Ziels in der Datei der Einrichtung und die Geheimnisse, auf die sie verweist.',
  'finding.delivery.token-refused':
    'Der Autorisierungsserver von {destination} gibt diesem Absender kein Token. Nichts wurde gesendet.',
  'remedy.delivery.token-refused':
    'Prüfen Sie Client-ID, Schlüssel oder Geheimnis, Scope und Uhr; der öffentliche Schlüssel muss dort eingetragen sein.',
  'finding.delivery.secret-missing':
    'Das Geheimnis {reference} des Ziels {destination} wurde nicht gefunden: nichts bei {where}.',
  'remedy.delivery.secret-missing':
    'Setzen Sie diese Umgebungsvariable, oder machen Sie die Datei für diesen Benutzer lesbar. Ein relativer Pfad beginnt im Ordner der Konfiguration der Einrichtung.',
  'finding.delivery.header-not-allowed':
    'Das Ziel {destination} setzt den Header {header}, den die Datei der Einrichtung nicht setzen darf.',
  'remedy.delivery.header-not-allowed':
    'Entfernen Sie ihn; die Autorisierung gehört unter auth, als Verweis auf das Geheimnis.',
  'finding.delivery.other-version':
    '{destination} gibt an, FHIR {version} zu sprechen; Sendungen dorthin sind in {ours} geschrieben.',
  'remedy.delivery.other-version':
    'Setzen Sie fhirVersion des Ziels auf das, was der Server spricht, oder verwenden Sie seine Adresse für die andere Ausgabe.',
  'finding.delivery.transaction-not-declared': '{destination} gibt nicht an, Transaktionen anzunehmen.',
  'remedy.delivery.transaction-not-declared':
    'Setzen Sie mode des Ziels auf batch oder single; oder, wenn Sie wissen, dass er sie doch annimmt, undeclaredTransaction auf true.',
  'finding.delivery.batch-not-declared': '{destination} gibt nicht an, Batches anzunehmen.',
  'remedy.delivery.batch-not-declared': 'Setzen Sie mode des Ziels auf single, wenn Batches dort scheitern.',
  'finding.delivery.not-in-version':
    '{destination} verlangt FHIR {version}; darin lässt sich {what} nicht schreiben. Nichts wurde gesendet.',
  'remedy.delivery.not-in-version': `${older}.`,
  'finding.delivery.relations-left-out':
    '{destination} ist so eingestellt, dass es kein relatesTo annimmt: das Dokument nennt seinen Vorgänger nicht. Der Bericht sagt es in Worten, und der Vorgänger wird trotzdem abgelöst.',
  'remedy.delivery.relations-left-out':
    'Setzen Sie relatesTo des Ziels auf send, wenn der Server es annimmt.',
  'finding.delivery.linked-by-identifier':
    '{destination} nimmt keine Transaktionen: die Verweise {what} nennen die Kennung statt einer Adresse, da sie sonst einen Kreis schlössen.',
  'remedy.delivery.linked-by-identifier':
    'Setzen Sie mode des Ziels auf transaction, wenn der Server Transaktionen annimmt.',
  'finding.delivery.lost-in-version':
    '{destination} verlangt FHIR {version}, das keinen Platz hat für {what}.',
  'remedy.delivery.lost-in-version': `${older}, wenn es dort darauf ankommt.`,
  'finding.delivery.type-not-declared': '{destination} gibt nicht an, {type} {what} anzunehmen.',
  'remedy.delivery.type-not-declared':
    'Fragen Sie die Betreiber, oder lassen Sie diese Art von Ressource in der Datei der Einrichtung weg, wo sie es erlaubt.',
  'finding.delivery.forbidden':
    '{destination} kennt den Absender, lässt ihn aber nicht schreiben ({status}).',
  'remedy.delivery.forbidden':
    'Lassen Sie dort Schreibrechte für die Arten von Ressourcen geben, die ein Fall hat.',
  'finding.delivery.no-transaction': '{destination} nimmt an dieser Adresse keine Transaktionen ({status}).',
  'remedy.delivery.no-transaction': 'Prüfen Sie die Basisadresse; oft endet sie auf /fhir oder /r4.',
  'finding.delivery.media-type': '{destination} nimmt den Medientyp der Sendung nicht an ({status}).',
  'remedy.delivery.media-type':
    'Setzen Sie den Medientyp des Ziels auf application/json oder auf das, was dessen Dokumentation nennt.',
  'finding.delivery.server-says': '{destination} sagt zu {resource}: {text}',
  'remedy.delivery.server-says':
    'Beheben Sie es im Protokoll oder in der Datei der Einrichtung; was ein Server über den Standard hinaus abweist, ist seine eigene Regel.',
  'finding.delivery.held-differs':
    '{destination} hält {element} anders als gesendet: gesendet {sent}, dort {held}.',
  'remedy.delivery.held-differs':
    'Klären Sie, ob der Server es ändert oder weglässt, und ob das für den Fall von Belang ist.',
} satisfies Partial<Record<MessageKey, string>>;
