import type { MessageKey } from '../../../message.js';

/** Werte, die Quellen einer Akte geben. */
export const intakeFindings = {
  'finding.intake.disagrees': '{place}: Die Angaben weichen voneinander ab: {sides}. Nichts wurde geändert.',
  'remedy.intake.disagrees':
    'Prüfen Sie, was stimmt, und tragen Sie es ein; Getipptes bleibt stehen, bis Sie es ändern.',
  'finding.intake.other-patient':
    '{source} gehört zu einem anderen Patienten oder Fall: {what} ist dort {theirs} und in {against} {ours}. Nichts davon wurde übernommen.',
  'remedy.intake.other-patient':
    'Prüfen Sie, zu wem die Quelle gehört. Ist die Akte falsch, berichtigen Sie sie und bringen die Quelle noch einmal ein.',
  'finding.intake.patient-unconfirmed':
    'Nichts von dem, was {source} über Patient oder Fall sagt, lässt sich mit der Akte vergleichen: {theirs}.',
  'remedy.intake.patient-unconfirmed': 'Vergleichen Sie es selbst und ergänzen Sie in der Akte, was fehlt.',
  'finding.intake.too-old':
    '{place} aus {source} ist vom {at}, mehr als {limit} vor dem Fall. Die Angabe wurde vorgeschlagen und nicht eingetragen.',
  'remedy.intake.too-old':
    'Übernehmen Sie sie, wenn sie noch gilt, oder messen Sie neu. Die Grenze ist intake.olderThan der Einrichtung, eine örtliche Vorgabe.',
  'finding.intake.placed-later':
    '{device} aus {source} wurde am {date} eingelegt, nach dem Fall ({day}). Das Produkt wurde nicht übernommen.',
  'remedy.intake.placed-later': 'Prüfen Sie, ob es der richtige frühere Fall ist und ob case.date stimmt.',
  'finding.intake.placed-here':
    '{device} aus {source} wurde in ebendiesem Fall eingelegt. Das Produkt wurde nicht übernommen.',
  'remedy.intake.placed-here': 'Bringen Sie den Fall davor ein, oder berichtigen Sie case.id.',
  'finding.intake.renewed': '{place} wurde aus {source} erneuert: aus {was} wurde {is}.',
  'remedy.intake.renewed':
    'Hatte jemand den alten Wert berichtigt, tragen Sie ihn wieder ein und streichen Sie seine Zeile aus sources.',
  'finding.intake.entry-there': '{place} steht schon in der Akte. {fields} aus {source} wurde nicht ergänzt.',
  'remedy.intake.entry-there':
    'Ergänzen Sie es von Hand, wenn es dasselbe ist; sonst geben Sie dem anderen einen anderen Schlüssel.',
  'finding.intake.key-twice':
    '{place} steht in zwei Sets: {sources}. Nur ein Eintrag kann diesen Schlüssel haben; die Akte sagt also nicht, dass beide auf dem Tisch liegen.',
  'remedy.intake.key-twice':
    'Geben Sie ihm in einem der Sets einen anderen Schlüssel, oder tragen Sie das zweite unter eigenem Schlüssel in die Akte ein.',
  'finding.intake.not-a-field':
    '{source} gibt einen Wert für {place}; das ist kein Feld einer Akte, in das ein einzelner Wert gehört.',
  'remedy.intake.not-a-field':
    'Berichtigen Sie die Quelle, oder tragen Sie den Wert von Hand in das richtige Feld ein.',
  'finding.intake.not-a-value':
    'Was {source} für {place} angibt, kann in keiner Akte stehen: Es ist leer, zu lang oder hat unsichtbare Zeichen.',
  'remedy.intake.not-a-value': 'Berichtigen Sie die Quelle, oder tragen Sie den Wert von Hand ein.',
  'finding.intake.not-written':
    'Die Werte ließen sich nicht so in diese Datei schreiben, dass sie wie gemeint gelesen wird. Sie blieb unverändert.',
  'remedy.intake.not-written':
    'Tragen Sie sie von Hand ein, oder bringen Sie die Datei in eine einfachere Form (keine Anker, keine doppelten Schlüssel) und versuchen Sie es noch einmal.',
  'finding.intake.kit-other-kind': '{source} ist für {kinds}; der Fall ist {kind}.',
  'remedy.intake.kit-other-kind': 'Prüfen Sie, ob es das richtige Set ist.',
  'finding.intake.kit-device-open':
    '{device} kam mit {source} auf den Tisch, und nichts sagt, was daraus wurde.',
  'remedy.intake.kit-device-open':
    'Ergänzen Sie die Ereignisse, oder schreiben Sie in devices.{key} use: unopened, opened unused oder failed; use: used bei dem, was nie in den Körper kommt.',
} as const satisfies Partial<Record<MessageKey, string>>;
