import type { drafts as en } from '../en/drafts.js';

/** Was gegen eine Änderung eines Entwurfs spricht. */
export const drafts: Record<keyof typeof en, string> = {
  'drafts.noEdit': 'es ist keine Änderung',
  'drafts.noPath': 'der Pfad kann nicht gelesen werden',
  'drafts.noPlace': 'die Liste hat keine solche Stelle',
  'drafts.noList': 'unter diesem Pfad steht keine Liste',
  'drafts.notThere': 'unter diesem Pfad steht nichts',
  'drafts.holdsText': 'was es enthält, ist Text und keine Gruppe von Feldern',
  'drafts.tooDeep': 'der Pfad ist zu tief',
  'drafts.forbidden': 'der Pfad hat einen Namen, der nicht erlaubt ist',
};
