import type { MessageKey } from '../../../message.js';

/** Lignes dictées ou saisies. */
export const lineFindings = {
  'finding.lines.uncertain': 'La ligne {n} est incertaine : {why}.',
  'remedy.lines.uncertain':
    'Comparez ce qui est proposé à ce qui a été fait, puis corrigez-le ou reprenez-le.',
  'finding.lines.not-understood': 'La ligne {n} n’a pas été comprise : {why}.',
  'remedy.lines.not-understood': 'Dites-le autrement, ou écrivez l’événement à la main.',
  'finding.lines.too-long':
    'La ligne {n} compte {found} caractères et n’a pas été lue ; une ligne en compte au plus {limit}.',
  'remedy.lines.too-long': 'Donnez une ligne par étape.',
  'finding.lines.too-many': 'Il y a {found} lignes ; seules les {limit} premières ont été lues.',
  'remedy.lines.too-many': 'Donnez les lignes d’un cas à la fois.',
  'finding.lines.unprintable': 'La ligne {n} contient un caractère de contrôle et n’a pas été lue.',
  'remedy.lines.unprintable': 'Saisissez la ligne de nouveau.',
} as const satisfies Partial<Record<MessageKey, string>>;
