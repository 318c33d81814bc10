import type { MessageKey } from '../../../message.js';

/** Constats sur le registre des dispositifs présents chez les patients. */
export const registerFindings = {
  'finding.register.held-back':
    'Le cas {case} n’est pas inscrit au registre des dispositifs : erreurs dans son dossier : {count}.',
  'remedy.register.held-back': 'Corrigez ce qui est indiqué ici, puis inscrivez-le de nouveau.',
  'finding.register.no-person':
    'Le cas {case} est gardé sans personne : son dossier ne donne aucun numéro du patient, ou en donne plusieurs dont aucun ne compte.',
  'remedy.register.no-person':
    'Indiquez patientSystem sous register dans la configuration du site et lancez casetally register rebuild ; ou donnez le numéro dans le dossier.',
  'finding.register.several-fit':
    'Cas {case} : le dispositif « {device} » peut être n’importe lequel de {uses} ; le registre n’en clôt aucun de lui-même.',
  'remedy.register.several-fit':
    'Dites dans carried d’où il vient (use, case, side) ; ou décidez : casetally register link {case} {device} USE --by NAME --why TEXT.',
  'finding.register.contradiction':
    'Cas {case} : le dispositif « {device} » serait {uses}, mais ils diffèrent par : {what} ; le registre laisse les deux ouverts.',
  'remedy.register.contradiction':
    'Corrigez le dossier qui est faux ; ou décidez : casetally register link {case} {device} USE --by NAME --why TEXT.',
  'finding.register.not-held':
    'Cas {case} : le dispositif « {device} » nomme une utilisation ({use}) qui n’est pas ouverte chez ce patient.',
  'remedy.register.not-held':
    'Corrigez carried.use ; casetally register inside PATIENT montre celles qui existent.',
  'finding.register.proposed':
    'Cas {case} : par son type et son emplacement, le dispositif « {device} » peut être {uses} ; cela seul ne clôt rien.',
  'remedy.register.proposed':
    'Scannez l’étiquette ou nommez l’utilisation dans carried.use ; ou décidez : casetally register link {case} {device} USE --by NAME --why TEXT.',
  'finding.register.gap':
    'Cas {case} : le dispositif « {device} » se trouvait là où {use} devrait être, et c’en est un autre : un cas entre les deux manque.',
  'remedy.register.gap': 'Inscrivez le cas où il a été changé, ou corrigez le dossier.',
  'finding.register.same-serial':
    'Deux personnes ont un dispositif avec l’identifiant {di} et le numéro de série {serial} : {use} et {other}.',
  'remedy.register.same-serial':
    'Corrigez le dossier qui est faux ; si les deux sont la même personne, casetally register join.',
  'finding.register.version-twice':
    'Cas {case} : le registre a deux dossiers différents qui disent être sa version {version}.',
  'remedy.register.version-twice': 'Donnez au plus récent la version suivante, et inscrivez-le.',
} as const satisfies Partial<Record<MessageKey, string>>;
