import type { doseWording } from '../../wording/doses.js';

/** Warnings about doses, values and drugs, in Spanish. */
export const doseWarnings: Record<`finding.${keyof typeof doseWording}`, string> = {
  'finding.clinical.value-unlikely': '{what}',
  'finding.clinical.drug-dose-unlikely':
    '«{drug}» {dose} no es una dosis habitual: lo habitual de una vez es {range}.{would}',
  'finding.clinical.drug-dose-by-weight':
    '«{drug}» {dose} son {ratio} de peso corporal, por encima de {limit}.{would}',
  'finding.clinical.route-unlikely': '«{drug}» no se administra habitualmente por esta vía: {route}.',
  'finding.clinical.strength-missing': 'La dosis de «{drug}» es un volumen y no consta la concentración.',
  'finding.clinical.weight-missing': '{what}',
  'finding.clinical.heparin-after-hit':
    '«{what}»: heparina después de una trombocitopenia inducida por heparina («{known}»).',
  'finding.clinical.drug-condition':
    'Se dio «{drug}» a un paciente con «{condition}» ({place}), que lo desaconseja.',
  'finding.clinical.anticoagulant-differs': '«{text}» no concuerda con «{other}» ({place}) para {drug}.',
  'finding.clinical.anticoagulant-unsaid':
    '«{text}» nombra {drug}, y no figura entre los fármacos que afectan a la coagulación.',
  'finding.clinical.sedation-differs': '{what}',
  'finding.clinical.drug-dose-repeated': '«{drug}» suma {sum} en {hours} h, más de {limit}.',
};
