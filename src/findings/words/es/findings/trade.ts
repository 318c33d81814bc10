import type { MessageKey } from '../../../message.js';

/** Reglas del oficio. */
export const tradeFindings = {
  'finding.clinical.case-kind-unknown':
    '«{kind}» no es ningún tipo de caso conocido aquí: no se clasifica el riesgo de sangrado, no se puede decir a un registro de calidad qué se hizo y no se da código.',
  'remedy.clinical.case-kind-unknown': '{suggestion}',
  'finding.clinical.case-kind-read': 'El tipo de caso «{kind}» se lee como «{row}».',
  'remedy.clinical.case-kind-read': 'Si no es lo que se hizo, escriba el tipo tal como está en la tabla.',
  'finding.clinical.bleeding-class-unknown':
    'El riesgo de sangrado de «{kind}» no se clasificó: {why}. El INR, las plaquetas y el fibrinógeno no se compararon con umbrales, y las últimas dosis solo con las suspensiones de riesgo bajo.',
  'remedy.clinical.bleeding-class-unknown':
    'En la configuración del centro, bajo clinical.bleedingRisk, escriba «{kind}: low» o «{kind}: high», según valore el centro este tipo de caso.',
  'remedy.clinical.allergy-cross':
    'Compruebe ambas cosas. Si se administró a sabiendas, acepte este aviso con el motivo y lo que se hizo para evitar daños.',
  'remedy.clinical.allergy-device':
    'Compruebe ambas cosas. Si se usó a sabiendas, acepte este aviso con el motivo.',
} as const satisfies Partial<Record<MessageKey, string>>;
