import type { MessageKey } from '../../../message.js';

/** Spätere Fassungen eines Berichts. */
export const correctionFindings = {
  'finding.correction.earlier-not-given':
    'Dieser Bericht folgt auf Fassung {versions}, die nicht vorliegt: ihr Dokument bleibt am Ziel neben diesem gültig, und Ressourcen, die diese Fassung nicht mehr hat, bleiben, wie sie sind.',
  'remedy.correction.earlier-not-given':
    'Bereiten Sie mit --previous und dem Protokoll jener Fassung vor, und senden Sie so.',
  'finding.correction.other-case':
    'Die frühere Fassung gehört zum Fall „{found}“, diese zum Fall „{expected}“.',
  'remedy.correction.other-case':
    'Nennen Sie die frühere Fassung desselben Falls; ein Fall behält seine Nummer durch alle Fassungen.',
  'finding.correction.other-patient':
    'Keine Patientennummer dieser Fassung steht in der früheren: sie gehören zu zwei Patienten.',
  'remedy.correction.other-patient':
    'Ziehen Sie die frühere Fassung unter ihrem eigenen Patienten zurück, und senden Sie diese als Fall mit eigener Nummer. War eine Nummer nur vertippt, behalten Sie die alte neben der neuen.',
  'finding.correction.version-order': 'Dies ist Fassung {found}; die Fassung davor ist {previous}.',
  'remedy.correction.version-order': 'Zählen Sie die Fassungen aufwärts: setzen Sie report.version.',
  'finding.correction.of-other-version':
    'Die Änderung betrifft Fassung {found}; die Fassung vor dieser ist {previous}.',
  'remedy.correction.of-other-version':
    'Berichtigen Sie report.change.of, oder nennen Sie die gemeinte Fassung mit --previous.',
  'finding.correction.after-withdrawn': 'Fassung {previous} ist zurückgezogen: auf sie folgt keine Fassung.',
  'remedy.correction.after-withdrawn': 'Berichten Sie den Fall neu unter einer eigenen Fallnummer.',
  'finding.correction.status-order':
    'Der Bericht hat den Status „{status}“ und folgt auf Fassung {previous} mit dem Status „{was}“.',
  'remedy.correction.status-order':
    'Auf einen unterschriebenen Bericht folgt ein berichtigter, ergänzter oder zurückgezogener: setzen Sie report.status.',
  'finding.correction.nothing-changed':
    'Der Bericht hat den Status „{status}“, sagt aber nichts anderes als Fassung {previous}.',
  'remedy.correction.nothing-changed':
    'Prüfen Sie, ob die richtigen Dateien genannt sind; ohne Änderung braucht keine neue Fassung gesendet zu werden.',
  'finding.correction.addendum-changes':
    'Ein Nachtrag lässt das Gesagte, wie es war; hier lautet es anders: {what}.',
  'remedy.correction.addendum-changes':
    'Setzen Sie report.status auf „amended“, wenn der Bericht selbst falsch war.',
  'finding.correction.change-half-told': 'In der Änderung fehlt: {missing}.',
  'remedy.correction.change-half-told':
    'Ergänzen Sie report.change.by und report.change.at, damit die Lesenden wissen, wer den Bericht wann geändert hat.',
} satisfies Partial<Record<MessageKey, string>>;
