import type { MessageKey } from '../../../message.js';

/** Constats sur le traitement de nombreux cas à la fois. */
export const bulkFindings = {
  'finding.bulk.unread': 'Le fichier ne peut pas être lu : {why}.',
  'remedy.bulk.unread': 'Faites en sorte qu’il puisse être lu, puis relancez la même commande.',
  'finding.bulk.link':
    'C’est un lien ; les liens ne sont pas suivis, pour que rien ne soit lu hors du dossier.',
  'remedy.bulk.link': 'Placez ici le fichier lui-même, ou indiquez le dossier vers lequel mène le lien.',
  'finding.bulk.no-route': 'Aucune route de la configuration du site n’accepte ce cas.',
  'remedy.bulk.no-route': 'Ajoutez une route, ou indiquez une destination avec --to.',
  'finding.bulk.too-long': 'Le traitement de ce cas a duré plus de {seconds} s et a été arrêté.',
  'remedy.bulk.too-long':
    'Cherchez ce qui dépasse de loin ce qu’un cas contient ; ou accordez plus de temps avec --seconds.',
  'finding.bulk.too-much-memory':
    'Le traitement de ce cas a demandé plus de {megabytes} Mo de mémoire et a été arrêté.',
  'remedy.bulk.too-much-memory': 'Cherchez ce qui dépasse de loin ce qu’un cas contient.',
  'finding.bulk.died': 'Un défaut de Casetally même a arrêté le traitement de ce cas.',
  'remedy.bulk.died':
    'Relancez la même commande : rien n’est enregistré deux fois. Si le défaut revient, signalez-le.',
  'finding.bulk.cut-off':
    'La dernière ligne ne finit pas par un saut de ligne : le fichier est peut-être tronqué.',
  'remedy.bulk.cut-off': 'Faites réécrire le fichier s’il n’est pas complet.',
} as const satisfies Partial<Record<MessageKey, string>>;
