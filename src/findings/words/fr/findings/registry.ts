import type { MessageKey } from '../../../message.js';

/** Entrées des registres de qualité. */
export const registryFindings = {
  'finding.registry.identifier-missing':
    'Cas {case} : il manque à l’entrée du registre de qualité pour le dispositif « {device} » un identifiant de dispositif.',
  'remedy.registry.identifier-missing': 'Scannez l’étiquette, ou donnez udi.',
  'finding.registry.lot-missing':
    'Cas {case} : il manque à l’entrée du registre de qualité pour le dispositif « {device} » un numéro de lot ou de série.',
  'remedy.registry.lot-missing': 'Scannez l’étiquette, ou donnez lot ou serial.',
  'finding.registry.placed-missing':
    'Cas {case} : il manque à l’entrée du registre de qualité pour le dispositif « {device} » le jour de sa pose.',
  'remedy.registry.placed-missing': 'Donnez carried.date, aussi précisément que possible.',
  'finding.registry.held-back':
    'Le cas {case} n’est remis à aucun registre de qualité : erreurs dans son dossier : {count}.',
  'remedy.registry.held-back': 'Corrigez ce qui est indiqué ici, puis produisez de nouveau les entrées.',
  'finding.registry.preliminary': 'Le cas {case} attend : son compte rendu est provisoire.',
  'remedy.registry.preliminary': 'Produisez de nouveau les entrées dès que le compte rendu est définitif.',
  'finding.registry.newer-version':
    'Cas {case} : la version {version} est aussi parmi les fichiers, et compte à la place de celle-ci.',
  'remedy.registry.newer-version': 'Il n’y a rien à faire.',
  'finding.registry.given-twice':
    'Le cas {case} est plusieurs fois parmi les fichiers, mot pour mot ; il compte une fois.',
  'remedy.registry.given-twice': 'Il n’y a rien à faire.',
  'finding.registry.version-twice': 'Cas {case} : deux dossiers différents disent être sa version {version}.',
  'remedy.registry.version-twice':
    'Retirez celui qui ne vaut pas, ou donnez au plus récent la version suivante.',
  'finding.registry.kind-unlisted':
    'Cas {case} : aucun type de cas n’est connu sous les mots « {kind} », on ne peut donc pas dire à un registre de qualité ce qui a été fait.',
  'remedy.registry.kind-unlisted':
    'Écrivez le type comme il est d’usage, par exemple nephrostomy exchange ou caval filter insertion.',
  'finding.registry.patient-numbers':
    'Le patient a plusieurs numéros, et rien ne dit lequel le registre de qualité utilise.',
  'remedy.registry.patient-numbers':
    'Indiquez patientSystem dans les réglages du registre de qualité de la configuration du site.',
  'finding.registry.patient-number-missing':
    'Le patient n’a aucun numéro, ou en a plusieurs, du système que le registre de qualité utilise ({system}).',
  'remedy.registry.patient-number-missing': 'Donnez le seul numéro de ce système dans patient.identifiers.',
  'finding.registry.withheld':
    'Dispositif « {device} » : {field} n’est pas envoyé au registre de qualité, car un texte saisi peut nommer une personne et rien d’autre ne le confirme.',
  'remedy.registry.withheld':
    'Scannez l’étiquette ; ou inscrivez le texte au catalogue des dispositifs ou sous allowed dans les réglages du registre de qualité.',
  'finding.registry.key-missing':
    'Le registre de qualité « {registry} » n’a pas de secret pour les pseudonymes : cette production ne peut être reliée à aucune autre.',
  'remedy.registry.key-missing':
    'Indiquez key dans les réglages du registre de qualité de la configuration du site (env:NAME ou file:PATH).',
  'finding.registry.key-newline':
    'Le secret du registre de qualité « {registry} » ({key}) se termine par un saut de ligne, qui est pris comme en faisant partie.',
  'remedy.registry.key-newline':
    'Mettez keyEndsInNewline: yes là où des pseudonymes en ont déjà été tirés ; sinon, enregistrez le fichier sans le saut de ligne.',
  'finding.registry.no-device': 'Le cas {case} n’a aucun dispositif qu’un registre de qualité recueille.',
  'remedy.registry.no-device': 'Il n’y a rien à faire.',
} as const satisfies Partial<Record<MessageKey, string>>;
