import type { MessageKey } from '../../../message.js';

/** Les modèles de compte rendu de l’établissement. */
export const templateFindings = {
  'finding.template.none': 'Le répertoire {folder} n’a ni mise en page (.yaml) ni modèle (.hbs).',
  'remedy.template.none':
    'Indiquez le répertoire dont les fichiers s’appellent ward.yaml, ou comme les modèles fournis, par exemple style.hbs.',
  'finding.template.broken': '{why}',
  'remedy.template.broken':
    'Corrigez le fichier ; les clés des sections, les noms et les fonctions sont dans templates/README.md.',
  'finding.template.drops':
    'Le compte rendu pour {audience} en {format} ({language}, exemple {example}) ne montre plus : {fact}.',
  'remedy.template.drops': 'Imprimez-le de nouveau, précédé de son libellé, là où chaque lecteur le voit.',
  'finding.template.unsafe':
    'Le compte rendu pour {audience} en {format} ne peut pas être affiché sans danger : {why}.',
  'remedy.template.unsafe':
    'Imprimez avec deux accolades, dans le texte et non dans des attributs ou dans style ; supprimez ce qui est nommé ici.',
  'finding.template.unused':
    'Le modèle {name} n’en remplace aucun de ceux qui sont fournis, et aucun ne l’appelle.',
  'remedy.template.unused': 'Cherchez une faute dans son nom, ou appelez-le depuis un modèle propre.',
} as const satisfies Partial<Record<MessageKey, string>>;
