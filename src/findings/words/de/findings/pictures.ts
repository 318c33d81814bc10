import type { MessageKey } from '../../../message.js';

/** Bilder, die ein Protokoll nennt. */
export const pictureFindings = {
  'finding.picture.not-read': 'Das Bild {file} ist nicht lesbar: {why}. Der Bericht zeigt nur seinen Namen.',
  'remedy.picture.not-read':
    'Legen Sie die Datei an ihren Ort im Ordner der Falldatei, oder berichtigen Sie ihren Namen.',
  'finding.picture.not-given': 'Der Fall kam ohne das Bild {file}. Der Bericht zeigt nur dessen Namen.',
  'remedy.picture.not-given':
    'Bereiten Sie den Fall dort vor, wo das Bild neben seiner Datei liegt, oder lassen Sie den Namen weg.',
  'finding.picture.outside':
    'Das Bild {file} ist ein Link aus dem Ordner der Falldatei hinaus und wurde nicht gelesen.',
  'remedy.picture.outside': 'Legen Sie eine Kopie des Bildes in den Ordner.',
  'finding.picture.too-big': 'Das Bild {file} hat {found}; gelesen werden Bilder bis {limit}.',
  'remedy.picture.too-big':
    'Exportieren Sie eine kleinere Kopie; der Bericht zeigt höchstens {longest} Pixel auf der längeren Seite.',
  'finding.picture.wrong-type':
    'Die Datei {file} enthält weder ein JPEG- noch ein PNG-Bild, gleich wie sie heißt.',
  'remedy.picture.wrong-type': 'Exportieren Sie das Bild als JPEG oder PNG.',
  'finding.picture.damaged': 'Das Bild {file} ist nicht decodierbar: {why}.',
  'remedy.picture.damaged':
    'Exportieren Sie es neu als Baseline-JPEG mit 8 Bit, oder als PNG ohne Interlacing und ohne Animation.',
  'finding.picture.too-many': 'Das Bild {file} ist Nummer {number}; ein Bericht zeigt {limit}.',
  'remedy.picture.too-many':
    'Nennen Sie die Bilder, die gebraucht werden, und lassen Sie die anderen dem Archiv.',
} satisfies Partial<Record<MessageKey, string>>;
