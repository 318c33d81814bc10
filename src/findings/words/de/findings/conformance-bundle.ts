import type { MessageKey } from '../../../message.js';

/** Konformität von Referenzen, Bundles, Textdarstellungen und Ausnahmen. */
export const conformanceBundleFindings = {
  'finding.conformance.identifier-system': 'Identifier.system „{system}“ ist keine absolute Adresse',
  'remedy.conformance.identifier-system':
    'Schreiben Sie die volle Adresse oder urn:oid:… oder urn:uuid:… des Namensraums.',
  'finding.conformance.identifier-value':
    'Die Kennung „{value}“ des Systems urn:ietf:rfc:3986 ist kein vollständiger URI',
  'remedy.conformance.identifier-value':
    'Schreiben Sie den Wert als URI, zum Beispiel urn:uuid:… oder urn:oid:….',
  'finding.conformance.canonical-relative':
    'Die kanonische Adresse „{value}“ ist weder absolut noch ein Fragment',
  'remedy.conformance.canonical-relative': 'Schreiben Sie die volle kanonische Adresse.',
  'finding.conformance.attachment-hash':
    'Der Hash des Anhangs passt nicht zu seinen Daten (der SHA-1 der Daten ist {expected})',
  'remedy.conformance.attachment-hash':
    'Berechnen Sie den Hash über die Daten vor base64, und schreiben Sie ihn in base64.',
  'finding.conformance.attachment-size':
    'Die Größe des Anhangs ist {found}, aber seine Daten haben {expected} Bytes',
  'remedy.conformance.attachment-size': 'Schreiben Sie die Zahl der Bytes vor base64.',
  'finding.conformance.reference-format': '„{reference}“ ist keine Referenz: {problem}',
  'remedy.conformance.reference-format':
    'Schreiben Sie Type/id, eine absolute Adresse, urn:uuid:…, urn:oid:… oder #id.',
  'finding.conformance.reference-type': 'Die Referenz zeigt auf {found}; erlaubt: {allowed}',
  'remedy.conformance.reference-type': 'Verweisen Sie auf eine Ressource eines erlaubten Typs.',
  'finding.conformance.reference-type-mismatch':
    'Reference.type sagt {said}, aber die Referenz zeigt auf {found}',
  'remedy.conformance.reference-type-mismatch': 'Berichtigen Sie type oder reference.',
  'finding.conformance.reference-profile':
    'Die Ressource, auf die verwiesen wird, entspricht keinem von: {profiles}; erster Grund: {reason}',
  'remedy.conformance.reference-profile':
    'Passen Sie die Ressource an, auf die verwiesen wird, oder verweisen Sie auf eine andere.',
  'finding.conformance.reference-contained': 'Keine enthaltene Ressource hat die id „{id}“',
  'remedy.conformance.reference-contained':
    'Nehmen Sie die Ressource auf, oder berichtigen Sie die Referenz.',
  'finding.conformance.reference-aggregation': 'Die Referenz ist {found}; erlaubt: {allowed}',
  'remedy.conformance.reference-aggregation': 'Verweisen Sie auf eine erlaubte Weise.',
  'finding.conformance.reference-urn': 'Kein Eintrag des Bundles hat die fullUrl {reference}',
  'remedy.conformance.reference-urn': 'Ergänzen Sie den Eintrag, oder berichtigen Sie die Referenz.',
  'finding.conformance.contained-id': '{problem}',
  'remedy.conformance.contained-id': 'Geben Sie jeder enthaltenen Ressource eine eigene id.',
  'finding.conformance.bundle-full-url': 'Die fullUrl „{fullUrl}“ ist nicht brauchbar: {problem}',
  'remedy.conformance.bundle-full-url': 'Schreiben Sie eine absolute Adresse oder urn:uuid:… des Eintrags.',
  'finding.conformance.bundle-full-url-missing': 'Der Eintrag hat keine fullUrl',
  'remedy.conformance.bundle-full-url-missing':
    'Nur batch, transaction und Antworten dürfen sie weglassen: geben Sie die Identität der Ressource an.',
  'finding.conformance.bundle-id-mismatch': 'Die fullUrl endet auf {tail}, aber die Ressource ist {found}',
  'remedy.conformance.bundle-id-mismatch':
    'Die letzten beiden Teile von fullUrl müssen Typ und id der Ressource sein.',
  'finding.conformance.bundle-unreachable':
    'Der Eintrag {entry} ist von der Composition aus nicht über Referenzen erreichbar',
  'remedy.conformance.bundle-unreachable':
    'Verweisen Sie von der Composition aus auf ihn, oder lassen Sie ihn weg.',
  'finding.conformance.bundle-missing-entry':
    'Das Dokument enthält {reference} nicht, worauf dort {from} verweist',
  'remedy.conformance.bundle-missing-entry': 'Nehmen Sie die Ressource in das Dokument auf.',
  'finding.conformance.bundle-request': 'Die Anfrage {method} {url} ist nicht brauchbar: {problem}',
  'remedy.conformance.bundle-request':
    'Schreiben Sie die Anfrage so, wie die RESTful-Schnittstelle es verlangt.',
  'finding.conformance.bundle-identity-twice':
    'Die Transaktion schreibt {identity} mehr als einmal (auch in Eintrag {other})',
  'remedy.conformance.bundle-identity-twice': 'Schreiben Sie jede Ressource in einer Transaktion nur einmal.',
  'finding.conformance.bundle-create-twice':
    'Die Transaktion legt {criteria} mehr als einmal an, wenn es noch fehlt (auch in Eintrag {other}): ein Server legt zwei an',
  'remedy.conformance.bundle-create-twice':
    'Legen Sie die Ressource einmal an, und verweisen Sie auf diesen Eintrag.',
  'finding.conformance.bundle-batch-reference':
    'Der Eintrag verweist auf den Eintrag {other} desselben Batches, dessen id erst bekannt ist, wenn der Batch abgearbeitet ist',
  'remedy.conformance.bundle-batch-reference':
    'Verwenden Sie eine Transaktion, oder verweisen Sie auf vorhandene Ressourcen.',
  'finding.conformance.conditional-reference':
    'Die bedingte Referenz {reference} ist nur in einer Transaktion erlaubt',
  'remedy.conformance.conditional-reference':
    'Verweisen Sie mit einer Adresse, oder senden Sie eine Transaktion.',
  'finding.conformance.narrative-xml': 'Die Textdarstellung ist kein wohlgeformtes XHTML: {problem}',
  'remedy.conformance.narrative-xml': 'Berichtigen Sie die Auszeichnung.',
  'finding.conformance.narrative-root':
    'Die Textdarstellung muss ein einziges div im XHTML-Namensraum sein, vorhanden ist {found}',
  'remedy.conformance.narrative-root': 'Schreiben Sie <div xmlns="http://www.w3.org/1999/xhtml">…</div>.',
  'finding.conformance.narrative-element':
    'Die Textdarstellung darf das Element {element} nicht enthalten (txt-1)',
  'remedy.conformance.narrative-element':
    'Verwenden Sie nur einfache Formatierungselemente der Kapitel 7 bis 11 und 15 von HTML 4.0.',
  'finding.conformance.narrative-attribute':
    'Die Textdarstellung darf das Attribut {attribute} an {element} nicht enthalten (txt-1)',
  'remedy.conformance.narrative-attribute': 'Entfernen Sie das Attribut.',
  'finding.conformance.narrative-empty': 'Die Textdarstellung hat weder Text noch Bild (txt-2)',
  'remedy.conformance.narrative-empty': 'Schreiben Sie Text, oder lassen Sie die Textdarstellung weg.',
  'finding.conformance.narrative-link': 'Adresse des Verweises oder Bildes „{target}“: {problem}',
  'remedy.conformance.narrative-link':
    'Zeigen Sie auf eine id dieser Textdarstellung, eine enthaltene Ressource oder eine sichere absolute Adresse.',
  'finding.conformance.narrative-id': 'Die id „{id}“ wird in der Textdarstellung zweimal verwendet',
  'remedy.conformance.narrative-id': 'Verwenden Sie jede id nur einmal.',
  'finding.conformance.waiver-expired': 'Die Ausnahme von {rule} an {where} ist am {expires} abgelaufen',
  'remedy.conformance.waiver-expired':
    'Prüfen Sie sie: beheben Sie, was sie entschuldigt, oder erneuern Sie sie mit einem Grund.',
  'finding.conformance.waiver-unused': 'Die Ausnahme von {rule} an {where} hat nichts entschuldigt',
  'remedy.conformance.waiver-unused': 'Entfernen Sie sie, wenn sie nicht mehr gebraucht wird.',
} satisfies Partial<Record<MessageKey, string>>;
