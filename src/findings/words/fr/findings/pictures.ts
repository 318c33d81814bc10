import type { MessageKey } from '../../../message.js';

/** Les images que nomme un dossier. */
export const pictureFindings = {
  'finding.picture.not-read': 'L’image {file} est illisible : {why}. Le compte rendu n’en montre que le nom.',
  'remedy.picture.not-read':
    'Mettez le fichier à sa place dans le répertoire du fichier du dossier, ou corrigez son nom.',
  'finding.picture.not-given':
    'Le dossier est arrivé sans l’image {file}. Le compte rendu n’en montre que le nom.',
  'remedy.picture.not-given':
    'Préparez le dossier là où l’image se trouve à côté de son fichier, ou supprimez le nom.',
  'finding.picture.outside':
    'L’image {file} est un lien qui sort du répertoire du fichier du dossier ; elle n’a pas été lue.',
  'remedy.picture.outside': 'Mettez une copie de l’image dans le répertoire.',
  'finding.picture.too-big': 'L’image {file} fait {found} ; les images sont lues jusqu’à {limit}.',
  'remedy.picture.too-big':
    'Exportez une copie plus petite ; le compte rendu montre au plus {longest} pixels sur le grand côté.',
  'finding.picture.wrong-type':
    'Le fichier {file} ne contient pas d’image JPEG ni PNG, quoi qu’en dise son nom.',
  'remedy.picture.wrong-type': 'Exportez l’image en JPEG ou en PNG.',
  'finding.picture.damaged': 'L’image {file} ne peut pas être décodée : {why}.',
  'remedy.picture.damaged':
    'Exportez-la de nouveau en JPEG de base (baseline) à 8 bits, ou en PNG non entrelacé et non animé.',
  'finding.picture.too-many': 'L’image {file} porte le numéro {number} ; un compte rendu en montre {limit}.',
  'remedy.picture.too-many':
    'Nommez les images dont le lecteur a besoin, et laissez les autres aux archives d’imagerie.',
} as const satisfies Partial<Record<MessageKey, string>>;
