import type { MessageKey } from '../../../message.js';

/** Konformität der Ressourcen. */
export const conformanceFindings = {
  'finding.conformance.json-syntax': 'Der Text ist kein JSON: {problem}',
  'remedy.conformance.json-syntax':
    'Berichtigen Sie das JSON an dieser Stelle; danach wurde nichts mehr gelesen.',
  'finding.conformance.json-too-deep': 'Das JSON ist mehr als {limit} Ebenen tief verschachtelt',
  'remedy.conformance.json-too-deep':
    'Ressourcen sind viel flacher; prüfen Sie, was diese Datei geschrieben hat.',
  'finding.conformance.json-duplicate-key': 'Die Eigenschaft „{name}“ steht zweimal in einem Objekt',
  'remedy.conformance.json-duplicate-key': 'Behalten Sie eine von beiden.',
  'finding.conformance.not-a-resource':
    'Erwartet wird ein JSON-Objekt mit resourceType, vorhanden ist {found}',
  'remedy.conformance.not-a-resource': 'Geben Sie eine Ressource oder ein Bundle in FHIR R4 als JSON an.',
  'finding.conformance.unknown-type': 'Es gibt in R4 keinen Ressourcentyp „{type}“',
  'remedy.conformance.unknown-type': 'Berichtigen Sie resourceType; {hint}.',
  'finding.conformance.unknown-element': '{parent} hat kein Element „{name}“',
  'remedy.conformance.unknown-element': 'Entfernen Sie es, oder berichtigen Sie die Schreibweise; {hint}.',
  'finding.conformance.json-type': 'Erwartet wird {expected}, vorhanden ist {found}',
  'remedy.conformance.json-type': 'Schreiben Sie den Wert in der JSON-Form seines Typs.',
  'finding.conformance.empty': 'Leer: {what}',
  'remedy.conformance.empty': 'Lassen Sie das Element weg, wenn es keinen Inhalt hat.',
  'finding.conformance.null-padding': '{problem}',
  'remedy.conformance.null-padding':
    'In einem wiederholten primitiven Element steht null nur dort, wo die andere Liste den Eintrag trägt.',
  'finding.conformance.min': '{element} ist mindestens {min}-mal gefordert, vorhanden: {found}',
  'remedy.conformance.min': 'Ergänzen Sie {element}.',
  'finding.conformance.max': '{element} ist höchstens {max}-mal erlaubt, vorhanden: {found}',
  'remedy.conformance.max': 'Entfernen Sie, was an {element} zu viel ist.',
  'finding.conformance.choice-type': '{element} darf nicht vom Typ {found} sein; erlaubt: {allowed}',
  'remedy.conformance.choice-type': 'Verwenden Sie einen der erlaubten Typen.',
  'finding.conformance.choice-twice': '{element} ist in mehr als einem Typ angegeben: {found}',
  'remedy.conformance.choice-twice': 'Behalten Sie einen davon.',
  'finding.conformance.primitive-format': '„{value}“ ist als {type} nicht gültig: {problem}',
  'remedy.conformance.primitive-format': 'Schreiben Sie den Wert so, wie {type} es verlangt.',
  'finding.conformance.length': 'Der Wert hat {found} Zeichen; höchstens {max} sind erlaubt',
  'remedy.conformance.length': 'Kürzen Sie den Wert.',
  'finding.conformance.range': '{value} liegt außerhalb des erlaubten Bereichs: {limit}',
  'remedy.conformance.range': 'Berichtigen Sie den Wert.',
  'finding.conformance.fixed': 'Der Wert muss genau {expected} sein, vorhanden ist {found}',
  'remedy.conformance.fixed': 'Schreiben Sie den festgelegten Wert.',
  'finding.conformance.pattern': 'Der Wert muss {expected} enthalten, vorhanden ist {found}',
  'remedy.conformance.pattern': 'Schreiben Sie mindestens, was das Muster (pattern) enthält.',
  'finding.conformance.slice-closed':
    'Dieser Eintrag gehört zu keinem der Abschnitte (slices) von {element}, und die Aufteilung ist geschlossen: {slices}',
  'remedy.conformance.slice-closed': 'Passen Sie den Eintrag an einen Abschnitt an, oder entfernen Sie ihn.',
  'finding.conformance.slice-order':
    'Der Eintrag des Abschnitts {slice} steht nach einem des Abschnitts {after}; die Abschnitte haben eine Reihenfolge',
  'remedy.conformance.slice-order': 'Bringen Sie die Einträge in die Reihenfolge der Abschnitte.',
  'finding.conformance.slice-end':
    'Ein Eintrag außerhalb aller Abschnitte von {element} steht vor einem des Abschnitts {slice}',
  'remedy.conformance.slice-end': 'Stellen Sie Einträge, die zu keinem Abschnitt gehören, ans Ende.',
  'finding.conformance.slice-not-checked':
    'Die Aufteilung von {element} in Abschnitte wurde nicht geprüft: {reason}',
  'remedy.conformance.slice-not-checked':
    'Prüfen Sie die Abschnitte dieses Elements selbst oder mit einem anderen Werkzeug.',
  'finding.conformance.profile-not-loaded':
    'Das Profil {profile} ist nicht geladen; gegen dieses Profil wurde nichts geprüft',
  'remedy.conformance.profile-not-loaded':
    'Laden Sie das Paket, das es enthält, oder berichtigen Sie die Adresse.',
  'finding.conformance.profile-type': 'Das Profil {profile} ist für {expected}, nicht für {found}',
  'remedy.conformance.profile-type': 'Geben Sie ein Profil dieses Typs an.',
  'finding.conformance.profile-none':
    'Entspricht keinem der erlaubten Profile: {profiles}; erster Grund: {reason}',
  'remedy.conformance.profile-none': 'Passen Sie es an eines davon an.',
  'finding.conformance.abstract-type': '{type} ist abstrakt und kann nicht für eine Instanz verwendet werden',
  'remedy.conformance.abstract-type': 'Verwenden Sie einen konkreten Typ.',
  'finding.conformance.extension-unknown':
    'Die Erweiterung {url} ist in den geladenen Paketen nicht definiert; nur ihr Grundaufbau wurde geprüft',
  'remedy.conformance.extension-unknown': 'Laden Sie das Paket, das sie definiert, falls es eines gibt.',
  'finding.conformance.extension-modifier-unknown':
    'Die modifizierende Erweiterung {url} ist in den geladenen Paketen nicht definiert',
  'remedy.conformance.extension-modifier-unknown':
    'Eine modifizierende Erweiterung muss verstanden werden: laden Sie das Paket, das sie definiert.',
  'finding.conformance.extension-modifier': 'Die Erweiterung {url} muss als {expected} stehen',
  'remedy.conformance.extension-modifier': 'Verschieben Sie sie nach {expected}.',
  'finding.conformance.extension-context':
    'Die Erweiterung {url} ist an {where} nicht erlaubt; erlaubt an: {allowed}',
  'remedy.conformance.extension-context': 'Verwenden Sie sie dort, wo ihre Definition es erlaubt.',
  'finding.conformance.extension-part': 'Die Erweiterung {extension} hat keinen Teil „{url}“',
  'remedy.conformance.extension-part': 'Verwenden Sie die Teile, die ihre Definition nennt.',
  'finding.conformance.extension-url': 'Die Adresse der Erweiterung „{url}“ ist nicht absolut',
  'remedy.conformance.extension-url':
    'Schreiben Sie die volle Adresse der Erweiterung; nur Teile einer zusammengesetzten Erweiterung haben kurze Namen.',
  'finding.conformance.binding-required':
    '{found} ist nicht in der verbindlichen Wertemenge (required) {valueSet}',
  'remedy.conformance.binding-required': 'Verwenden Sie einen Code der Wertemenge{hint}.',
  'finding.conformance.binding-extensible':
    '{found} ist nicht in der erweiterbaren Wertemenge (extensible) {valueSet}',
  'remedy.conformance.binding-extensible':
    'Verwenden Sie einen Code der Wertemenge, wenn einer diese Bedeutung hat{hint}.',
  'finding.conformance.binding-preferred':
    '{found} ist nicht in der bevorzugten Wertemenge (preferred) {valueSet}',
  'remedy.conformance.binding-preferred': 'Ein Code der Wertemenge ist vorzuziehen{hint}.',
  'finding.conformance.binding-max': '{found} ist nicht in der größten zulässigen Wertemenge {valueSet}',
  'remedy.conformance.binding-max': 'Verwenden Sie einen Code der Wertemenge{hint}.',
  'finding.conformance.binding-not-checked': 'Nicht geprüft: ob {found} in {valueSet} ist ({reason})',
  'remedy.conformance.binding-not-checked':
    'Lassen Sie es von einem Terminologieserver prüfen, wenn es darauf ankommt.',
  'finding.conformance.code-unknown': 'Das Codesystem {system} hat keinen Code „{code}“',
  'remedy.conformance.code-unknown': 'Berichtigen Sie den Code{hint}.',
  'finding.conformance.code-display':
    'Der Anzeigetext (display) „{found}“ ist keiner des Codes {code}; er lautet: {expected}',
  'remedy.conformance.code-display':
    'Verwenden Sie den Anzeigetext des Codesystems, oder schreiben Sie eigene Worte in text.',
  'finding.conformance.code-system-value-set': 'Coding.system enthält die Adresse einer Wertemenge: {system}',
  'remedy.conformance.code-system-value-set': 'Schreiben Sie die Adresse des Codesystems.',
  'finding.conformance.code-system-relative': 'Coding.system „{system}“ ist keine absolute Adresse',
  'remedy.conformance.code-system-relative': 'Schreiben Sie die volle Adresse des Codesystems.',
  'finding.conformance.udi-issuer-relative':
    'Die Vergabestelle „{issuer}“ der Produktkennung ist keine absolute Adresse',
  'remedy.conformance.udi-issuer-relative':
    'Schreiben Sie die Adresse der Vergabestelle, zum Beispiel http://hl7.org/fhir/NamingSystem/gs1-di.',
  'finding.conformance.code-check-digit': 'Der Code {code} von {system} ist falsch geschrieben: {problem}',
  'remedy.conformance.code-check-digit':
    'Schlagen Sie den Code noch einmal nach; es kommt auf die Zahl der Ziffern und ihre Reihenfolge an.',
  'finding.conformance.unit-invalid': '„{code}“ ist keine UCUM-Einheit: {problem}',
  'remedy.conformance.unit-invalid': 'Schreiben Sie die Einheit in UCUM, zum Beispiel mm, [Ch], mGy, Gy.cm2.',
  'finding.conformance.invariant': '{key}: {human}',
  'remedy.conformance.invariant': 'Erfüllen Sie die Regel: {expression}',
  'finding.conformance.invariant-not-checked':
    'Die Invariante {key} konnte nicht ausgewertet werden: {reason}',
  'remedy.conformance.invariant-not-checked': 'Prüfen Sie selbst: {human}',
} satisfies Partial<Record<MessageKey, string>>;
