import type { readers as en } from '../en/readers.js';

/** Wörter der kürzeren Berichte, je für eine Leserschaft. */
export const readers: Record<keyof typeof en, string> = {
  'referrer.done': 'Was gemacht wurde',
  'referrer.inside': 'Was jetzt im Körper ist',
  'referrer.you': 'Was Sie tun müssen und wann',
  'referrer.youNone': 'Für Sie ist nichts zu tun dokumentiert.',
  'referrer.others': 'Was andere tun',
  'referrer.call': 'Wen Sie anrufen',
  'referrer.know': 'Außerdem wichtig',
  'referrer.unsure': 'Rufen Sie die Abteilung an, die den Eingriff gemacht hat.',
  'ward.done': 'Was gemacht wurde',
  'ward.inside': 'Drainagen, Zugänge und Medizinprodukte: wie sie eingestellt sind',
  'ward.you': 'Was die Station tut und wann',
  'ward.youNone': 'Für die Station ist nichts zu tun dokumentiert.',
  'ward.others': 'Was andere tun',
  'ward.call': 'Wann und wen anrufen',
  'ward.know': 'Zustand und Risiken',
  'ward.drugs': 'Beim Eingriff gegebene Medikamente',
};
