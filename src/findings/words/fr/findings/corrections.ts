import type { MessageKey } from '../../../message.js';

/** Une version ultérieure d’un compte rendu. */
export const correctionFindings = {
  'finding.correction.earlier-not-given':
    'Ce compte rendu suit la version {versions}, qui n’est pas disponible : son document reste en vigueur chez le destinataire à côté de celui-ci, et les ressources que cette version n’a plus restent telles quelles.',
  'remedy.correction.earlier-not-given':
    'Préparez et envoyez avec --previous et le dossier de cette version.',
  'finding.correction.other-case':
    'La version antérieure est du dossier « {found} », celle-ci du dossier « {expected} ».',
  'remedy.correction.other-case':
    'Indiquez la version antérieure du même dossier ; un dossier garde son numéro d’une version à l’autre.',
  'finding.correction.other-patient':
    'Aucun numéro de patient de cette version n’est dans la version antérieure : ce sont deux patients.',
  'remedy.correction.other-patient':
    'Retirez la version antérieure sous son propre patient, et envoyez celle-ci comme un dossier avec son propre numéro. Si un numéro a seulement été mal saisi, gardez l’ancien à côté du nouveau.',
  'finding.correction.version-order': 'C’est la version {found} ; la version qui la précède est {previous}.',
  'remedy.correction.version-order': 'Numérotez les versions en ordre croissant : fixez report.version.',
  'finding.correction.of-other-version':
    'La modification porte sur la version {found} ; la version qui précède celle-ci est {previous}.',
  'remedy.correction.of-other-version':
    'Corrigez report.change.of, ou indiquez avec --previous la version dont il s’agit.',
  'finding.correction.after-withdrawn': 'La version {previous} est retirée : aucune version ne la suit.',
  'remedy.correction.after-withdrawn': 'Établissez un nouveau compte rendu sous un numéro de dossier propre.',
  'finding.correction.status-order':
    'Le compte rendu est « {status} » et suit la version {previous}, qui est « {was} ».',
  'remedy.correction.status-order':
    'Un compte rendu signé est suivi d’un compte rendu modifié, complété ou retiré : fixez report.status.',
  'finding.correction.nothing-changed':
    'Le compte rendu est « {status} », mais ne dit rien d’autre que la version {previous}.',
  'remedy.correction.nothing-changed':
    'Vérifiez si les bons fichiers ont été indiqués ; une nouvelle version sans changement n’a pas à être envoyée.',
  'finding.correction.addendum-changes':
    'Un addendum laisse en l’état ce qui a été dit ; ici c’est dit autrement : {what}.',
  'remedy.correction.addendum-changes':
    'Mettez report.status à « amended » si le compte rendu lui-même était faux.',
  'finding.correction.change-half-told': 'La modification ne dit pas tout ; il manque : {missing}.',
  'remedy.correction.change-half-told':
    'Ajoutez report.change.by et report.change.at, pour que les lecteurs sachent qui a modifié le compte rendu et quand.',
} as const satisfies Partial<Record<MessageKey, string>>;
