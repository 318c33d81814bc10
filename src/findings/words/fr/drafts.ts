import type { drafts as en } from '../en/drafts.js';

/** Ce qui empêche une modification d’un brouillon. */
export const drafts: Record<keyof typeof en, string> = {
  'drafts.noEdit': 'ce n’est pas une modification',
  'drafts.noPath': 'le chemin est illisible',
  'drafts.noPlace': 'la liste n’a pas cette place',
  'drafts.noList': 'il n’y a pas de liste à ce chemin',
  'drafts.notThere': 'il n’y a rien à ce chemin',
  'drafts.holdsText': 'ce qui le contient est du texte, pas des champs',
  'drafts.tooDeep': 'le chemin est trop profond',
  'drafts.forbidden': 'le chemin contient un nom interdit',
};
