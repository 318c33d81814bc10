import type { MessageKey } from '../../../message.js';

/** Hallazgos sobre el registro de productos dentro de los pacientes. */
export const registerFindings = {
  'finding.register.held-back':
    'El caso {case} no se incorpora al registro de productos: errores en su ficha: {count}.',
  'remedy.register.held-back': 'Corrija lo que aquí se indica y vuelva a incorporarlo.',
  'finding.register.no-person':
    'El caso {case} se guarda sin persona: su ficha no da ningún número del paciente, o da varios y ninguno cuenta.',
  'remedy.register.no-person':
    'Indique patientSystem en register de la configuración del centro y ejecute casetally register rebuild; o dé el número en la ficha.',
  'finding.register.several-fit':
    'Caso {case}: el producto «{device}» puede ser cualquiera de {uses}; el registro no cierra ninguno por sí solo.',
  'remedy.register.several-fit':
    'Diga en carried de dónde venía (use, case, side); o decida: casetally register link {case} {device} USE --by NAME --why TEXT.',
  'finding.register.contradiction':
    'Caso {case}: el producto «{device}» sería {uses}, pero difieren en: {what}; el registro deja los dos abiertos.',
  'remedy.register.contradiction':
    'Corrija la ficha que no es correcta; o decida: casetally register link {case} {device} USE --by NAME --why TEXT.',
  'finding.register.not-held':
    'Caso {case}: el producto «{device}» nombra un uso ({use}) que no está abierto en este paciente.',
  'remedy.register.not-held': 'Corrija carried.use; casetally register inside PATIENT muestra los que hay.',
  'finding.register.proposed':
    'Caso {case}: por su tipo y lugar el producto «{device}» puede ser {uses}; eso solo no cierra nada.',
  'remedy.register.proposed':
    'Escanee la etiqueta o nombre el uso en carried.use; o decida: casetally register link {case} {device} USE --by NAME --why TEXT.',
  'finding.register.gap':
    'Caso {case}: el producto «{device}» estaba donde debería estar {use}, y es otro: falta un caso entre los dos.',
  'remedy.register.gap': 'Incorpore el caso en que se cambió o corrija la ficha.',
  'finding.register.same-serial':
    'Dos personas tienen un producto con el identificador {di} y el número de serie {serial}: {use} y {other}.',
  'remedy.register.same-serial':
    'Corrija la ficha que no es correcta; si son la misma persona, casetally register join.',
  'finding.register.version-twice':
    'Caso {case}: el registro tiene dos fichas distintas que dicen ser su versión {version}.',
  'remedy.register.version-twice': 'Dé a la posterior la versión siguiente e incorpórela.',
} as const satisfies Partial<Record<MessageKey, string>>;
