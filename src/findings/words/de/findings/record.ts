import type { MessageKey } from '../../../message.js';

/** Das Lesen des Protokolls. */
export const recordFindings = {
  'finding.record.not-text': 'Die Datei ist kein UTF-8-Text: Byte {byte} ist nicht lesbar.',
  'remedy.record.not-text': 'Speichern Sie die Datei als UTF-8.',
  'finding.record.too-big': 'Die Datei hat {size} Bytes; ein Fallprotokoll darf {limit} haben.',
  'remedy.record.too-big': 'Senden Sie einen Fall je Datei, ohne Bilder und Dokumente darin.',
  'finding.record.too-deep': 'Die Datei ist mehr als {limit} Ebenen tief verschachtelt.',
  'remedy.record.too-deep': 'Kein Fall braucht das: Suchen Sie nach nicht geschlossenen Klammern.',
  'finding.record.too-many': 'Die Datei enthält mehr als {limit} Werte.',
  'remedy.record.too-many': 'Senden Sie einen Fall je Datei.',
  'finding.record.too-many-entries': 'Hier stehen {count} Einträge; ein Fall darf höchstens {limit} haben.',
  'remedy.record.too-many-entries':
    'Prüfen Sie, ob Zeilen verdoppelt wurden; senden Sie einen Fall je Datei.',
  'finding.record.too-long': 'Der Text hat {length} Zeichen; höchstens {limit} sind erlaubt.',
  'remedy.record.too-long':
    'Prüfen Sie, ob hier versehentlich etwas eingefügt wurde; Bilder und Dokumente gehören neben das Protokoll.',
  'finding.record.long-word': 'Ein Wort oder eine Zahl hat mehr als {limit} Zeichen.',
  'remedy.record.long-word':
    'Prüfen Sie, ob hier versehentlich etwas eingefügt wurde; trennen Sie Wörter durch Leerzeichen.',
  'finding.record.control-character':
    'Der Text enthält das Zeichen {character}, das weder Bildschirm noch Drucker zeigt.',
  'remedy.record.control-character':
    'Entfernen Sie es; in einem Etikett schreiben Sie das Gruppentrennzeichen als \\x1D in doppelten Anführungszeichen.',
  'finding.record.not-yaml': 'Das ist kein lesbares YAML oder JSON: {why}',
  'remedy.record.not-yaml':
    'Berichtigen Sie die genannte Zeile; oft fehlt kurz davor ein Anführungszeichen, eine Klammer oder eine Einrückung.',
  'finding.record.duplicate-key': 'Der Schlüssel „{key}“ steht zweimal an derselben Stelle.',
  'remedy.record.duplicate-key': 'Behalten Sie einen davon, oder benennen Sie den zweiten um.',
  'finding.record.alias':
    '„{what}“ ist ein Anker, Alias, Merge oder Tag von YAML; ein Fallprotokoll hat so etwas nicht.',
  'remedy.record.alias':
    'Schreiben Sie den Wert dort aus, wo er gebraucht wird; Text, der mit & * oder ! beginnt, gehört in Anführungszeichen.',
  'finding.record.forbidden-key': 'Der Schlüssel „{key}“ ist nirgends erlaubt.',
  'remedy.record.forbidden-key': 'Geben Sie ihm einen anderen Namen.',
  'finding.record.not-a-case': 'Die Datei enthält {what}, kein Fallprotokoll.',
  'remedy.record.not-a-case':
    'Ein Fallprotokoll beginnt mit „casetally: 1“ und hat case, patient, team, indication und report.',
  'finding.record.empty-value': '„{key}“ hat keinen Wert.',
  'remedy.record.empty-value':
    'Lassen Sie die Zeile weg, wenn nichts dokumentiert wurde; schreiben Sie „none“, wenn nichts gefunden wurde.',
  'finding.record.unknown-key': '„{key}“ ist hier kein Feld.',
  'remedy.record.unknown-key': '{suggestion}',
  'finding.record.missing': '„{key}“ fehlt; erwartet wird: {expected}.',
  'remedy.record.missing': 'Ergänzen Sie „{key}“.',
  'finding.record.wrong-type': 'Erwartet: {expected}; gefunden: {found}.',
  'remedy.record.wrong-type': 'Schreiben Sie hier: {expected}.',
  'finding.record.not-one-of': '„{found}“ gehört nicht zu: {allowed}.',
  'remedy.record.not-one-of': '{suggestion}',
  'finding.record.bad-text': '„{found}“ passt hier nicht; erwartet wird: {expected}.',
  'remedy.record.bad-text': 'Schreiben Sie hier: {expected}.',
  'finding.record.bad-quantity': '{why}.',
  'remedy.record.bad-quantity': 'Schreiben Sie eine Zahl mit Einheit, etwa {example}.',
  'finding.record.bad-time': '{why}.',
  'remedy.record.bad-time':
    'Schreiben Sie 09:04, 2024-03-14T09:04 oder mit Abstand zur Weltzeit 2024-03-14T09:04+01:00.',
  'finding.record.time-skipped': '{why}.',
  'remedy.record.time-skipped':
    'Prüfen Sie die abgelesene Uhr: Sie war wahrscheinlich noch nicht vorgestellt.',
  'finding.record.time-twice': '{why}.',
  'remedy.record.time-twice': 'Schreiben Sie den Abstand zur Weltzeit hinter die Uhrzeit.',
  'finding.record.no-time-zone': '{why}.',
  'remedy.record.no-time-zone':
    'Ergänzen Sie timeZone in case, etwa Europe/Lisbon, oder in der Konfiguration der Einrichtung.',
  'finding.record.no-date': '{why}.',
  'remedy.record.no-date': 'Ergänzen Sie date in case, YYYY-MM-DD.',
  'finding.record.bad-time-zone': '„{zone}“ ist kein Name einer Zeitzone.',
  'remedy.record.bad-time-zone': 'Schreiben Sie einen IANA-Namen wie Europe/Lisbon.',
  'finding.record.bad-date': '„{found}“ ist kein Tag des Kalenders.',
  'remedy.record.bad-date': 'Schreiben Sie YYYY-MM-DD.',
  'finding.record.time-next-day':
    '{times}: als Folgetag gelesen, {date}, weil mehr als zwölf Stunden vor Beginn des Falls ({started}).',
  'remedy.record.time-next-day': 'Schreiben Sie das Datum vor die Uhrzeit, wenn ein anderer Tag gemeint ist.',
  'finding.record.time-day-before':
    '{times}: als Vortag gelesen, {date}, weil mehr als achtzehn Stunden nach Beginn des Falls ({started}).',
  'remedy.record.time-day-before':
    'Schreiben Sie das Datum vor die Uhrzeit, wenn ein anderer Tag gemeint ist.',
  'finding.record.start-missing':
    'Uhrzeiten ohne Datum reichen von {first} bis {last}, und der Fall hat keinen Beginn: alle gelten für {date}, auch solche, die zur Nacht davor oder danach gehören können.',
  'remedy.record.start-missing': 'Ergänzen Sie case.started, oder schreiben Sie das Datum vor die Uhrzeiten.',
  'finding.record.unknown-reference': 'Mit dem Schlüssel „{key}“ gibt es hier nichts ({what}).',
  'remedy.record.unknown-reference': '{suggestion}',
  'finding.record.duplicate-member': 'Zwei Einträge von {list} haben den Schlüssel „{key}“.',
  'remedy.record.duplicate-member': 'Geben Sie einem davon einen anderen Schlüssel.',
  'finding.record.reason-missing': 'Der Fall hat den Status „{status}“ und keinen Grund.',
  'remedy.record.reason-missing': 'Ergänzen Sie case.reason.',
  'finding.record.not-recorded': '{what}: nichts dokumentiert.',
  'remedy.record.not-recorded': 'Dokumentieren Sie es, oder schreiben Sie „none“, wenn es nichts gab.',
  'finding.record.checked-in-part':
    'Teile des Protokolls waren nicht lesbar; der Rest wurde ohne sie geprüft.',
  'remedy.record.checked-in-part':
    'Beheben Sie die Fehler, und prüfen Sie noch einmal: Es kann mehr zutage kommen.',
  'finding.record.unsigned': 'Der Bericht hat den Status „{status}“ und keine Zeit der Unterschrift.',
  'remedy.record.unsigned': 'Ergänzen Sie report.signedAt, oder setzen Sie report.status auf preliminary.',
  'finding.record.change-missing':
    'Der Bericht hat den Status „{status}“ und sagt nicht, was geändert wurde.',
  'remedy.record.change-missing': 'Ergänzen Sie report.change mit of, by, at und why.',
  'finding.record.outside-case': 'Dieses Ereignis um {time} liegt {side} des Falls ({limit}).',
  'remedy.record.outside-case': 'Berichtigen Sie die Zeit, oder case.started und case.ended.',
  'finding.record.order-of-times': '{later} ({laterTime}) liegt vor {earlier} ({earlierTime}).{more}',
  'remedy.record.order-of-times': 'Berichtigen Sie die falsche Zeit: diese oder {other}.',
  'finding.record.event-out-of-place':
    'Das Ereignis „{event}“ hat die Zeit {time} und steht im Protokoll zwischen {from} und {to}. Widersprüche, die daraus folgen: {count}.',
  'remedy.record.event-out-of-place':
    'Setzen Sie seine Zeit auf {from} bis höchstens {to}; ist sie richtig, berichtigen Sie, was daraus folgt.',
  'finding.record.in-future': '{what} ({time}) liegt in der Zukunft.{more}',
  'remedy.record.in-future': 'Berichtigen Sie Datum oder Uhrzeit, oder die Uhr dieses Rechners.',
  'finding.record.source-of-nothing':
    'sources sagt, woher {place} kommt, aber an dieser Stelle steht nichts.',
  'remedy.record.source-of-nothing': 'Zeile aus sources streichen oder ihren Pfad berichtigen.',
} satisfies Partial<Record<MessageKey, string>>;
