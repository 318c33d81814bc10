import type { MessageKey } from '../../../message.js';

/** Befunde zum Abarbeiten vieler Fälle auf einmal. */
export const bulkFindings = {
  'finding.bulk.unread': 'Die Datei kann nicht gelesen werden: {why}.',
  'remedy.bulk.unread':
    'Sorgen Sie dafür, dass sie gelesen werden kann, und geben Sie denselben Befehl noch einmal.',
  'finding.bulk.link':
    'Dies ist eine Verknüpfung; Verknüpfungen wird nicht gefolgt, damit nichts außerhalb des Ordners gelesen wird.',
  'remedy.bulk.link':
    'Legen Sie die Datei selbst hierher, oder nennen Sie den Ordner, zu dem die Verknüpfung führt.',
  'finding.bulk.no-route': 'Keine Route der Standortkonfiguration nimmt diesen Fall.',
  'remedy.bulk.no-route': 'Ergänzen Sie eine Route, oder nennen Sie ein Ziel mit --to.',
  'finding.bulk.too-long': 'Die Bearbeitung dieses Falls dauerte länger als {seconds} s und wurde beendet.',
  'remedy.bulk.too-long':
    'Suchen Sie, wovon weit mehr da ist, als ein Fall hat; oder geben Sie mit --seconds mehr Zeit.',
  'finding.bulk.too-much-memory':
    'Die Bearbeitung dieses Falls brauchte mehr als {megabytes} MB Speicher und wurde beendet.',
  'remedy.bulk.too-much-memory': 'Suchen Sie, wovon weit mehr da ist, als ein Fall hat.',
  'finding.bulk.died': 'Ein Fehler in Casetally selbst hat die Bearbeitung dieses Falls beendet.',
  'remedy.bulk.died':
    'Geben Sie denselben Befehl noch einmal: nichts wird doppelt abgelegt. Kommt der Fehler wieder, melden Sie ihn.',
  'finding.bulk.cut-off':
    'Die letzte Zeile endet ohne Zeilenumbruch: die Datei ist vielleicht abgeschnitten.',
  'remedy.bulk.cut-off': 'Lassen Sie die Datei neu schreiben, falls sie nicht vollständig ist.',
} as const satisfies Partial<Record<MessageKey, string>>;
