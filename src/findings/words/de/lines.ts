import type { lines as en } from '../en/lines.js';

/** Was eine gesprochene oder getippte Zeile unsicher macht. */
export const lines: Record<keyof typeof en, string> = {
  'line.twoFit': '„{said}“ passt auf mehrere Produkte: {devices}',
  'line.noFit': 'Kein Produkt auf dem Tisch passt auf „{said}“',
  'line.noDevice': 'Zu „{verb}“ ist kein Produkt genannt',
  'line.recent': 'Kein Produkt ist genannt; zuletzt war von {device} die Rede',
  'line.notIn': '{device} ist nicht als im Körper verzeichnet',
  'line.isIn': '{device} ist schon als im Körper verzeichnet',
  'line.noTime': 'Die Zeile hat keine Uhrzeit',
  'line.words': 'Nicht verstanden: {words}',
  'line.open': '„{word}“ kann den Sinn ändern',
  'line.corrected': 'Die Zeile berichtigt sich selbst',
  'line.noAct': 'Was getan wurde, ist nicht gesagt',
  'line.askBack': '„{word}“ lässt offen, was zu verzeichnen ist',
  'line.noDose': 'Für {drug} ist keine Dosis genannt',
  'line.noRoute': 'Für {drug} ist kein Weg der Gabe genannt',
  'line.twoActs': 'Mehrere Handlungen in einer Wendung: {verbs}',
  'line.tooMany': '{there} waren auf dem Tisch; gesagt sind {count}',
};
