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
    'Mettez keyEndsInNewline: true là où des pseudonymes en ont déjà été tirés ; sinon, enregistrez le fichier sans le saut de ligne.',
  'finding.registry.no-device': 'Le cas {case} n’a aucun dispositif qu’un registre de qualité recueille.',
  'remedy.registry.no-device': 'Il n’y a rien à faire.',
  'finding.registry.element-missing':
    'Cas {case} : le registre de qualité ne peut se passer de « {element} » du dispositif « {device} ».',
  'remedy.registry.element-missing':
    'Indiquez-le dans le dossier du cas ; la définition du registre de qualité dit ce qu’il demande.',
  'finding.registry.element-wanted':
    'Cas {case} : le registre de qualité souhaiterait « {element} » du dispositif « {device} ».',
  'remedy.registry.element-wanted': 'Indiquez-le dans le dossier du cas s’il est connu.',
  'finding.registry.value-not-taken':
    'Cas {case}, dispositif « {device} » : le registre de qualité n’accepte pas « {value} » comme « {element} ».',
  'remedy.registry.value-not-taken':
    'Corrigez le dossier du cas ; ou demandez au registre de qualité une définition qui contienne cette valeur.',
  'finding.registry.value-too-long':
    'Cas {case}, dispositif « {device} » : « {element} » est plus long que ce qu’accepte le registre de qualité ({count} caractères).',
  'remedy.registry.value-too-long':
    'Corrigez le dossier du cas, ou demandez au registre de qualité ce qu’il faut faire.',
  'finding.registry.few-alike':
    'Cas {case} : moins de {count} personnes se ressemblent dans ce que nomme le registre de qualité ; ses dates et son âge sont envoyés avec moins de précision.',
  'remedy.registry.few-alike': 'Il n’y a rien à faire.',
  'finding.registry.too-few-alike':
    'Cas {case} : moins de {count} personnes se ressemblent même avec les dates et l’âge les moins précis ; la définition du registre de qualité le retient.',
  'remedy.registry.too-few-alike':
    'Il partira de lui-même lors d’un envoi ultérieur, lorsqu’elles seront plus nombreuses.',
  'finding.registry.refused':
    'Cas {case} : le registre de qualité a refusé l’entrée du dispositif « {device} » ({code}) : {says}',
  'remedy.registry.refused': '{remedy} Ensuite, casetally registry send : elle part comme version suivante.',
  'finding.registry.not-answered':
    'Cas {case} : la réponse du registre de qualité omet l’entrée du dispositif « {device} ».',
  'remedy.registry.not-answered':
    'Demandez au registre de qualité, ou envoyez-la encore une fois : casetally registry resend.',
  'finding.registry.answer-unknown-entry':
    'La ligne {line} de la réponse porte sur une entrée qui n’est pas dans ce lot.',
  'remedy.registry.answer-unknown-entry': 'Demandez au registre de qualité ; cette ligne n’a rien changé.',
  'finding.registry.answer-other-version':
    'La ligne {line} de la réponse porte sur la version {version} d’une entrée ; ce lot contenait la version {sent}.',
  'remedy.registry.answer-other-version': 'Il n’y a rien à faire ; cette ligne n’a rien changé.',
  'finding.registry.answer-other-digest': 'La réponse porte sur d’autres octets que ceux du lot {batch}.',
  'remedy.registry.answer-other-digest':
    'Demandez au registre de qualité ce qu’il a reçu ; rien n’a été changé.',
  'finding.registry.answer-incomplete':
    'La réponse au lot {batch} s’arrête avant d’être complète ; {count} de ses lignes ont été lues.',
  'remedy.registry.answer-incomplete':
    'Procurez-vous la réponse entière et rapprochez de nouveau : ce qui a été lu est conservé.',
  'finding.registry.answer-unreadable': 'La ligne {line} de la réponse ne peut pas être lue : {why}',
  'remedy.registry.answer-unreadable':
    'Procurez-vous la réponse encore une fois ; les autres lignes ont été lues.',
  'finding.registry.waits-for-answer':
    'Cas {case} : l’entrée du dispositif « {device} » a changé et attend que le registre de qualité ait répondu sur la version précédente.',
  'remedy.registry.waits-for-answer':
    'casetally registry reconcile, dès que la réponse est là ; puis envoyez de nouveau.',
  'finding.registry.not-mended':
    'Cas {case} : le registre de qualité a refusé l’entrée du dispositif « {device} » ({code}), et le dossier du cas n’a pas changé depuis.',
  'remedy.registry.not-mended':
    'Corrigez ce que nomme le registre de qualité ; ou, s’il s’est trompé, casetally registry resend --refused.',
} as const satisfies Partial<Record<MessageKey, string>>;
