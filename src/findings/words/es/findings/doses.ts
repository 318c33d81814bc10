import type { MessageKey } from '../../../message.js';

/** Dosis, valores y fármacos. */
export const doseFindings = {
  'remedy.clinical.value-unlikely':
    'Lea de nuevo el valor y su unidad en la fuente. No se calcula nada a partir de él.',
  'remedy.clinical.drug-dose-unlikely':
    'Lea de nuevo dosis, unidad y concentración; si son correctas, acepte este aviso con el motivo.',
  'remedy.clinical.drug-dose-by-weight':
    'Lea de nuevo dosis, unidad y peso; si son correctos, acepte este aviso con el motivo.',
  'remedy.clinical.drug-dose-repeated':
    'Quite la dosis que se introdujo dos veces, o corrija su hora; si se dieron ambas, acepte este aviso con el motivo.',
  'remedy.clinical.route-unlikely':
    'Compruebe el fármaco y la vía; si son correctos, acepte este aviso con el motivo.',
  'remedy.clinical.strength-missing':
    'Añada strength, por ejemplo 1 % o 10 mg/mL, o escriba la dosis como masa o en IU.',
  'remedy.clinical.weight-missing': 'Añada patient.weight.',
  'remedy.clinical.heparin-after-hit':
    'Compruebe ambas cosas. Use otro anticoagulante, otro lavado u otro sellado; si se dio a sabiendas, acepte este aviso con el motivo.',
  'remedy.clinical.drug-condition':
    'Compruebe el fármaco y la enfermedad; si se dio a sabiendas, acepte el aviso con el motivo.',
  'remedy.clinical.anticoagulant-differs':
    'Escriba lo mismo en todos los lugares: suspender, continuar o el día en que se reanuda.',
  'remedy.clinical.anticoagulant-unsaid':
    'Añádalo en before.anticoagulants con su última dosis, o diga en el texto que se suspendió.',
  'remedy.clinical.sedation-differs':
    'Compruebe sedation (kind, by, start, end) y los fármacos que se dieron para ella.',
} as const satisfies Partial<Record<MessageKey, string>>;
