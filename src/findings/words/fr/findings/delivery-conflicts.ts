import type { MessageKey } from '../../../message.js';

/** Ce que deux ont écrit, ou ce qui a changé dans la boîte d’envoi. */
export const deliveryConflictsFindings = {
  'finding.delivery.conflict':
    '{destination} a un autre état de ce dossier ({status}) ; il n’a pas été écrasé.',
  'remedy.delivery.conflict':
    'Comparez les deux états, indiqués ci-dessous champ par champ, chacun avec les suites possibles.',
  'finding.delivery.item-unreadable':
    'Ce que la boîte d’envoi garde de l’élément {id} a été modifié ou tronqué : il ne peut pas être envoyé.',
  'remedy.delivery.item-unreadable':
    'Envoyez de nouveau le dossier à partir de son fichier ; puis casetally outbox discard {id}. casetally outbox doctor vérifie le reste.',
  'finding.delivery.written-at-once':
    '{destination} écrivait au même moment quelque chose de ce dossier pour quelqu’un d’autre, par exemple le patient d’un autre dossier ({status}) ; rien n’en a été modifié.',
  'remedy.delivery.written-at-once': 'L’envoi est répété automatiquement.',
  'finding.delivery.edited-there':
    '{address} a été modifié là-bas : {element} vaut {held} ; cette version du dossier a {sent}.',
  'remedy.delivery.edited-there':
    'Reprendre leur valeur : l’inscrire dans le dossier pour la version suivante, et casetally outbox discard ITEM. Écraser leur valeur : casetally outbox retry ITEM --overwrite --by NAME --why TEXT.',
  'finding.delivery.held-otherwise':
    '{address} existe déjà là-bas : {element} vaut {held} ; ce dossier a {sent}.',
  'remedy.delivery.held-otherwise':
    'Reprendre leur valeur : corriger le dossier, et casetally outbox discard ITEM. Remplacer leur valeur : envoyer le dossier comme nouvelle version (report.status amended, une version plus élevée).',
} as const satisfies Partial<Record<MessageKey, string>>;
