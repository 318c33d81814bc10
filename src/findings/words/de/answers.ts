import type { answers as en } from '../en/answers.js';

/** Antworten für einen einzelnen Fall, und was Teile davon verbindet. */
export const answers: Record<keyof typeof en, string> = {
  quoted: '„{text}“',
  'answer.both': '{one} und {other}',
  'answer.then': '{one}; {other}',
  'answer.orElse': '{one}, oder {other}',
  'answer.takeOut': 'Streichen Sie es.',
  'answer.didYouMean': 'Meinten Sie {names}?',
  'answer.useOneOf': 'Verwenden Sie eines davon: {allowed}.',
  'answer.elsewhere': 'Es gehört an eine andere Stelle: {places}.',
  'answer.meantMissing': 'Meinten Sie „{name}“, das hier fehlt?',
  'answer.declare': 'Legen Sie es an: noch nichts davon hat einen Schlüssel ({what}).',
  'answer.add.list': 'Ergänzen Sie „{key}“, eine Liste von Einträgen mit {fields}.',
  'answer.add.group': 'Ergänzen Sie „{key}“ mit {fields}.',
  'answer.addReport':
    'Ergänzen Sie „{key}“ mit {fields}, und mit signedAt, wenn status nicht preliminary ist.',
  'answer.addWith': 'Ergänzen Sie {path} mit {field}.',
  'answer.takeLineOut': 'Streichen Sie die Zeile.',
  'answer.valueOrNone': 'Schreiben Sie einen Wert, oder „none“.',
  'answer.valueNeeded': 'Schreiben Sie einen Wert: das Protokoll braucht dieses Feld.',
  'answer.leaveLineOut': 'Lassen Sie die Zeile weg, wenn nichts dokumentiert wurde.',
  'answer.quoteText':
    'Innerhalb von {braces} oder {brackets} beendet ein Komma den Text davor: setzen Sie den ganzen Text in Anführungszeichen.',
  'answer.quoteTextAs':
    'Innerhalb von {braces} oder {brackets} beendet ein Komma den Text davor: setzen Sie den ganzen Text in Anführungszeichen, {text}.',
  'answer.realDay': 'Schreiben Sie einen Tag, den es gibt, YYYY-MM-DD.',
  'answer.asDate': 'Schreiben Sie YYYY, YYYY-MM oder YYYY-MM-DD, oder mit Uhrzeit 2024-03-14T09:04.',
  'answer.asTerm': 'Schreiben Sie einen Tag YYYY-MM-DD, oder eine Zeitspanne wie 6 weeks.',
  'answer.notDone':
    'Streichen Sie, was nicht stattfand; hatte der Fall begonnen, setzen Sie case.status und ergänzen Sie die Ereignisse.',
  'answer.kindInWords':
    'Schreiben Sie die Art des Falls in schlichten Worten, etwa biliary drainage (Gallengangsdrainage) oder kidney biopsy (Nierenbiopsie); der Titel darf mehr sagen.',
  'answer.addFamily': 'Ergänzen Sie seine Familie: {families}.',
  'answer.removal': 'ein Ereignis remove mit device {device}',
  'answer.removalPart': '{removal} und eines mit part {part}',
  'answer.implantStays':
    'Bleibt es, führen Sie {key} unter „left“ mit purpose intended auf; wurde es entfernt, ergänzen Sie {removal}.',
  'answer.comesLater':
    'Um {time} wird es {done} ({place}): berichtigen Sie eine der beiden Zeiten und die Reihenfolge der Zeilen.',
  'answer.comesLaterStays':
    'Um {time} wird es {done} ({place}), und „left“ nennt es: streichen Sie diese Zeile, oder berichtigen Sie ihre Zeit und „left“.',
  'answer.calledUnused':
    'Nennen Sie das Produkt, das gemeint war; war es dieses, ergänzen Sie das Einbringen, und berichtigen Sie use ({use}).',
  'answer.removeBefore': 'Ergänzen Sie davor {removal}, oder sagen Sie, dass das andere hindurchläuft.',
  'answer.partsOut':
    'Ergänzen Sie ein Ereignis remove mit device {device}, part {key} und count {count}, oder tragen Sie das Teil unter „left“ ein, mit purpose temporary oder unintended, und until.',
  'answer.timeBefore':
    'Setzen Sie seine Zeit vor {time}, oder berichtigen Sie die Zeit, zu der das andere entfernt wurde.',
  'answer.takeTaskOut': 'Streichen Sie die Aufgabe, oder führen Sie unter „left“ auf, wovon sie handelt.',
  'answer.takeWordsOut': 'Berichtigen Sie den Text, oder führen Sie unter „left“ auf, wovon er handelt.',
  'answer.strengthInUnits': 'Ergänzen Sie strength, etwa 1000 IU/mL, oder schreiben Sie die Dosis in IU.',
  'answer.markDrug': 'Setzen Sie {place}.reaction auf yes.',
  'answer.markContrast': 'Beschreiben Sie sie in {place}.reaction.',
  'answer.wentThrough':
    'Nennen Sie, wodurch es ging, berichtigen Sie die Reihenfolge der Ereignisse, oder sagen Sie, dass eines über das andere läuft.',
  'answer.wentOver':
    'Nennen Sie den Draht, über den es ging, berichtigen Sie die Reihenfolge der Ereignisse, oder sagen Sie, dass das andere hindurchläuft.',
  'answer.trapped':
    'Sagen Sie in through, wodurch es lief, wenn es nicht diese Schleuse war; dokumentieren Sie die teilbare Schleuse, oder dass beide zusammen entfernt wurden; lässt sich der Ansatz abnehmen, nehmen Sie die Warnung an.',
  'answer.notCarried': 'Streichen Sie es unter „left“, oder ergänzen Sie das Einbringen.',
  'answer.earlierCase': 'einem früheren Fall',
  'answer.anyTime': 'irgendeiner Uhrzeit',
  'answer.lineKept': 'Berichtigen Sie diese Zeile; sie wurde behalten.',
  'answer.byWhom': 'von wem',
  'answer.when': 'wann',
  'mend.tab': 'Rücken Sie mit Leerzeichen ein.',
  'mend.secondDocument': 'Senden Sie einen Fall je Datei, und streichen Sie die Zeile ---.',
  'mend.colon': 'Setzen Sie einen Text, der „: “ enthält, in Anführungszeichen.',
  'mend.indent':
    'Rücken Sie die Felder einer Gruppe gleich weit ein; schließen Sie jedes {open} und [ mit {close} und ].',
  'mend.fieldName':
    'Suchen Sie kurz vor dieser Stelle nach einem fehlenden Anführungszeichen, einer Klammer oder einem Doppelpunkt.',
  'mend.mark': 'Setzen Sie den Text in Anführungszeichen.',
  'mend.alias': 'Setzen Sie den Text in Anführungszeichen.',
  'mend.escape': 'Schreiben Sie \\\\ für einen umgekehrten Schrägstrich.',
  'mend.quote': 'Schließen Sie das Anführungszeichen.',
  'mend.bracket': 'Schließen Sie die Klammer, und setzen Sie ein Komma zwischen die Felder.',
  'task.reviewLeft': 'Kontrolle oder Wechsel',
  'task.removeLeft': 'Entfernung oder Wechsel',
  'setting.isCase': 'die Datei enthält ein Fallprotokoll.',
  'setting.isCaseFix':
    'Eine Konfiguration der Einrichtung beginnt mit „casetallySite: 1“; einen Fall geben Sie ohne --site an.',
  'setting.secret': 'hier muss stehen, wo das Geheimnis liegt.',
  'setting.secretFix': 'Schreiben Sie env:NAME oder file:PATH, nie das Geheimnis selbst.',
  'setting.digest':
    'hier muss der Hashwert eines Tokens stehen, 64 Zeichen 0 bis 9 und a bis f, und nicht das Token.',
  'setting.digestFix':
    'Erzeugen Sie ein Token mit casetally token new; der Befehl gibt die Zeile aus, die hier steht.',
  'sign.temperature': 'Temperatur',
  'sign.oxygen saturation': 'Sauerstoffsättigung',
  'sign.pulse': 'Puls',
  'sign.systolic blood pressure': 'systolischer Blutdruck',
  'sign.diastolic blood pressure': 'diastolischer Blutdruck',
  'sign.week of pregnancy': 'Schwangerschaftswoche',
  'sign.pH': 'pH-Wert',
  'measure.gradientTold': 'Gradient',
};
