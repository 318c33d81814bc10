import type { MessageKey } from '../../../message.js';

/** Correcciones de informes. */
export const correctionFindings = {
  'finding.correction.earlier-not-given':
    'Este informe sigue a la versión {versions}, que no está disponible: su documento sigue vigente en el destino junto a este, y los recursos que esta versión ya no tiene quedan como están.',
  'remedy.correction.earlier-not-given': 'Prepárelo y envíelo con --previous y el registro de esa versión.',
  'finding.correction.other-case': 'La versión anterior es del caso «{found}» y esta del caso «{expected}».',
  'remedy.correction.other-case':
    'Indique la versión anterior del mismo caso; un caso conserva su número en todas las versiones.',
  'finding.correction.other-patient':
    'Ningún número de paciente de esta versión es de la versión anterior: son de dos pacientes.',
  'remedy.correction.other-patient':
    'Retire la versión anterior con su propio paciente, y envíe esta como un caso con número propio. Si solo se escribió mal un número, deje el antiguo junto al nuevo.',
  'finding.correction.version-order': 'Esta es la versión {found}; la anterior es la {previous}.',
  'remedy.correction.version-order': 'Numere las versiones en orden ascendente: ponga report.version.',
  'finding.correction.of-other-version':
    'El cambio se refiere a la versión {found}; la anterior a esta es la {previous}.',
  'remedy.correction.of-other-version':
    'Corrija report.change.of, o indique con --previous la versión a la que se refiere.',
  'finding.correction.after-withdrawn': 'La versión {previous} está retirada: no le sigue ninguna versión.',
  'remedy.correction.after-withdrawn': 'Informe el caso de nuevo con un número de caso propio.',
  'finding.correction.status-order':
    'El estado del informe es «{status}» y sigue a la versión {previous}, cuyo estado es «{was}».',
  'remedy.correction.status-order':
    'A un informe firmado le sigue uno enmendado (amended), ampliado (appended) o retirado (withdrawn): ponga report.status.',
  'finding.correction.nothing-changed':
    'El estado del informe es «{status}», pero no dice nada distinto de la versión {previous}.',
  'remedy.correction.nothing-changed':
    'Mire si se indicaron los ficheros correctos; si nada cambió, no hace falta enviar una versión nueva.',
  'finding.correction.addendum-changes':
    'Una adenda deja lo dicho como estaba; aquí se dice otra cosa: {what}.',
  'remedy.correction.addendum-changes':
    'Ponga report.status en «amended» si el propio informe estaba equivocado.',
  'finding.correction.change-half-told': 'El cambio no dice {missing}.',
  'remedy.correction.change-half-told':
    'Añada report.change.by y report.change.at, para que quien lo lea sepa quién cambió el informe y cuándo.',
} as const satisfies Partial<Record<MessageKey, string>>;
