import type { MessageKey } from '../../../message.js';

/** Entradas de los registros de calidad. */
export const registryFindings = {
  'finding.registry.missing':
    'Caso {case}: a la entrada del registro de calidad para el producto «{device}» le falta {what}.',
  'remedy.registry.missing': '{remedy}',
  'finding.registry.key-missing':
    'El registro de calidad «{registry}» no tiene secreto para los seudónimos: esta salida no se puede enlazar con ninguna otra.',
  'remedy.registry.key-missing':
    'Indique key en los ajustes del registro de calidad de la configuración del centro (env:NAME o file:PATH).',
  'finding.registry.no-device': 'El caso {case} no tiene ningún producto que un registro de calidad recoja.',
  'remedy.registry.no-device': 'No hay que hacer nada.',
} as const satisfies Partial<Record<MessageKey, string>>;
