import type { lines as en } from '../en/lines.js';

/** Ce qui rend incertaine une ligne dictée ou saisie. */
export const lines: Record<keyof typeof en, string> = {
  'line.twoFit': '« {said} » convient à plusieurs dispositifs : {devices}',
  'line.noFit': 'Aucun dispositif sur la table ne correspond à « {said} »',
  'line.noDevice': 'Aucun dispositif n’est nommé pour « {verb} »',
  'line.recent': 'Aucun dispositif n’est nommé ; le dernier mentionné est {device}',
  'line.notIn': '{device} n’est pas noté comme étant dans le patient',
  'line.isIn': '{device} est déjà noté comme étant dans le patient',
  'line.noTime': 'La ligne ne donne pas d’heure',
  'line.words': 'Non compris : {words}',
  'line.open': '« {word} » peut changer le sens',
  'line.corrected': 'La ligne se corrige elle-même',
  'line.noAct': 'Ce qui a été fait n’est pas dit',
  'line.askBack': '« {word} » laisse ouvert ce qui doit être noté',
  'line.noDose': 'Aucune dose n’est donnée pour {drug}',
  'line.noRoute': 'Aucune voie n’est donnée pour {drug}',
  'line.twoActs': 'Plusieurs actes dans une même expression : {verbs}',
  'line.tooMany': 'Il y en avait {there} sur la table ; {count} sont dits',
};
