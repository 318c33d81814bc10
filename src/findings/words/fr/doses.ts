import type { doses as en } from '../en/doses.js';

/** Doses et limites. */
export const doses: Record<keyof typeof en, string> = {
  'unlikely.value': '{what} de {value} est impossible : {range} est possible.{would}',
  'unlikely.index':
    'Un poids de {weight} et une taille de {height} donnent un indice de masse corporelle de {index}, hors de {least} à {most} : l’un des deux est faux.',
  'unlikely.decimal':
    '{what} de {value} a une décimale, et les plaquettes se comptent en nombres entiers : {would} conviendrait.',
  'range.amounts': '{least} à {most}',
  'anaesthetic.alone': '« {drug} » {dose} mg correspond à {perKg} mg/kg, au-dessus de {limit} mg/kg.',
  'anaesthetic.together':
    'Les anesthésiques locaux ensemble ({drugs}) atteignent {percent} % de leurs limites.',
  'anaesthetic.share': '{drug} {percent} %',
  'contrast.most': 'pour quiconque',
  'contrast.creatinine': '{factor} mL/kg divisé par la créatinine en mg/dL',
  'contrast.child': '{factor} mL/kg chez l’enfant',
  'weight.child': 'Un enfant a reçu « {drug} » {dose}, et aucun poids n’est renseigné.',
  'weight.dose': '« {drug} » {dose} se dose selon le poids, et aucun poids n’est renseigné.',
  'slip.short': 'L’exploration était courte, ou l’une des valeurs est fausse d’un facteur dix.',
  'sedation.drug': 'La sédation est notée « {kind} », et « {drug} » a été donné à {time}.',
  'sedation.relaxant': 'La sédation est notée « {kind} », et le curare « {drug} » a été donné.',
  'sedation.by': 'La sédation est notée « {kind} », assurée par {name} ({role}), qui n’est pas anesthésiste.',
  'sedation.told': 'La sédation est notée « {kind} » ; le texte dit « {text} ».',
  'sedation.nobody': 'La sédation est notée « {kind} », et aucun anesthésiste n’est dans l’équipe.',
  'sedation.after': '« {drug} » a été donné à {time}, après la fin de la sédation à {end}.',
  'sedation.before': '« {drug} » a été donné à {time}, bien avant le début de la sédation à {start}.',
  'calculation.egfr-bedside': 'Débit de filtration estimé de l’enfant (Schwartz simplifié)',
  'rule.egfr-bedside': '0,413 × taille en cm ÷ Scr en mg/dL, pour une créatinine par méthode enzymatique',
  'rule.egfr-bedside.method':
    '0,413 × taille en cm ÷ Scr en mg/dL, pour une créatinine par méthode enzymatique ; la méthode de cette valeur n’est pas renseignée',
  'input.height': 'Taille',
  'why.no-height': 'aucune taille n’est renseignée',
  'why.infant': 'l’équation vaut pour les enfants à partir de {n} an',
};
