import type { MessageKey } from '../../../message.js';

/** Die eigene Codeliste einer Einrichtung und der Terminologieserver. */
export const codesFindings = {
  'finding.codes.not-text': 'Die Codeliste ist kein UTF-8-Text: {problem}.',
  'remedy.codes.not-text': 'Speichern Sie sie aus der Tabellenkalkulation als „CSV UTF-8“.',
  'finding.codes.column-missing': 'Der Codeliste fehlt die Spalte {column}; ihre erste Zeile hat {found}.',
  'remedy.codes.column-missing':
    'Nennen Sie die Spalten in der ersten Zeile: what, text, system, code, display.',
  'finding.codes.unreadable': 'Zeile {line} der Codeliste ist nicht lesbar: {problem}.',
  'remedy.codes.unreadable':
    'Berichtigen Sie diese Zeile; Anführungszeichen um einen Text müssen geschlossen sein.',
  'finding.codes.value': 'Zeile {line} der Codeliste: {column} ist {found}; erwartet: {expected}.',
  'remedy.codes.value': 'Berichtigen Sie diese Zeile.',
  'finding.codes.rounded':
    'Zeile {line} der Codeliste: eine Tabellenkalkulation hat den Code in die Zahl {found} verwandelt.',
  'remedy.codes.rounded':
    'Formatieren Sie die Spalte als Text, und tippen Sie den Code neu: seine letzten Ziffern sind verloren.',
  'finding.codes.check-digit': 'Zeile {line} der Codeliste: {code} ist kein Code von {system}: {problem}.',
  'remedy.codes.check-digit':
    'Vergleichen Sie ihn mit der Stelle, von der er kopiert wurde; Tabellenkalkulationen machen Ziffern nach der fünfzehnten zu Nullen.',
  'finding.codes.twice':
    'Zeile {line} der Codeliste gibt „{text}“ den Code {code}; Zeile {first} gibt ihm {other}.',
  'remedy.codes.twice':
    'Behalten Sie je Text einen Code eines Codesystems, oder unterscheiden Sie die beiden in der Spalte what.',
  'finding.codes.more': 'Weitere Fehler in der Codeliste: {count}.',
  'remedy.codes.more': 'Berichtigen Sie zuerst die obigen.',
  'finding.codes.not-known':
    'Der Terminologieserver kennt {code} von {system} nicht, den die Einrichtung „{text}“ gibt.',
  'remedy.codes.not-known': 'Berichtigen Sie den Code, oder fragen Sie, welche Ausgabe der Server hat.',
  'finding.codes.named-otherwise':
    'Der Terminologieserver nennt {code} „{display}“; die Einrichtung gibt ihn „{text}“ als „{found}“.',
  'remedy.codes.named-otherwise':
    'Prüfen Sie, ob beide dasselbe meinen, und berichtigen Sie den Code oder die Bezeichnung.',
  'finding.codes.server-believes-all':
    'Der Terminologieserver sagt, dass {system} einen Code {code} hat, was nicht sein kann: seine Antworten zu {system} werden nicht verwendet.',
  'remedy.codes.server-believes-all': 'Fragen Sie die Betreiber, ob er dieses Codesystem führt.',
  'finding.codes.server': 'Der Terminologieserver gab keine Antwort auf {operation} für {code}: {problem}.',
  'remedy.codes.server': 'Prüfen Sie seine Adresse, und ob er diese Operation hat.',
} satisfies Partial<Record<MessageKey, string>>;
