import type { MessageKey } from '../../../message.js';

/** Registres. */
export const registryFindings = {
  'finding.registry.missing':
    'Dossier {case} : à l’entrée de registre du dispositif « {device} », il manque {what}.',
  'remedy.registry.missing': '{remedy}',
  'finding.registry.key-missing':
    'Le registre « {registry} » n’a pas de secret pour les pseudonymes : cet envoi ne peut être relié à aucun autre.',
  'remedy.registry.key-missing':
    'Fixez key dans les réglages du registre de la configuration de l’établissement (env:NAME ou file:PATH).',
  'finding.registry.no-device': 'Le dossier {case} n’a aucun dispositif qu’un registre enregistrerait.',
  'remedy.registry.no-device': 'Rien à faire.',
} as const satisfies Partial<Record<MessageKey, string>>;
