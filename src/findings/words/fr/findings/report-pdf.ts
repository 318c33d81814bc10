import type { MessageKey } from '../../../message.js';

/** Le compte rendu en PDF. */
export const reportPdfFindings = {
  'finding.report.character-not-in-font':
    'Le texte contient {characters}, qui manque dans la police du PDF ; le PDF affiche U+FFFD à la place.',
  'remedy.report.character-not-in-font':
    'Lisez ce texte dans le compte rendu HTML ou en texte brut, ou écrivez-le avec des lettres que la police contient.',
  'finding.report.font-not-installed':
    'Le texte contient {characters}, pour lesquels aucune police n’est installée ; le PDF affiche U+FFFD à leur place.',
  'remedy.report.font-not-installed':
    'Installez la police avec npm install dans le dossier de la configuration du site, ou là où Casetally est lancé : {packages} (une seule suffit). D’ici là, lisez ce texte dans le compte rendu en HTML ou en texte simple.',
} as const satisfies Partial<Record<MessageKey, string>>;
