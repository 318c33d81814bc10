import type { MessageKey } from '../../../message.js';

/** Brouillons. */
export const draftFindings = {
  'finding.drafts.impossible':
    'La modification de {place} est impossible : {why}. Aucune modification de ce groupe n’a été faite.',
  'remedy.drafts.impossible': 'Regardez la version la plus récente du brouillon et modifiez celle-là.',
  'finding.drafts.too-many':
    'Il y a {found} modifications ; {limit} au plus peuvent être faites ensemble. Aucune n’a été faite.',
  'remedy.drafts.too-many': 'Envoyez-les en groupes plus petits.',
  'finding.drafts.no-record': 'Le texte n’a aucun champ.',
  'remedy.drafts.no-record': 'Commencez-le par casetally: 1.',
  'finding.drafts.not-written':
    'Les modifications n’ont pas pu être écrites dans ce texte de façon à se lire comme voulu. Il est resté tel quel.',
  'remedy.drafts.not-written':
    'Faites le changement dans le texte même, ou donnez-lui une forme plus simple (sans ancres ni clés doubles), puis réessayez.',
  'finding.drafts.conflict':
    '{place} a été modifié par deux personnes : {mine} ici, {theirs} par quelqu’un d’autre ; avant, c’était {base}.',
  'remedy.drafts.conflict':
    'Mettez-vous d’accord sur ce qui est juste et inscrivez-le dans la version la plus récente.',
} satisfies Partial<Record<MessageKey, string>>;
