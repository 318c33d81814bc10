import type { MessageKey } from '../../../message.js';

/** Hallazgos sobre lo que los casos posteriores cambian en los destinos. */
export const registerDestinationFindings = {
  'finding.register.not-ours':
    '{destination}: {address}, creado para el caso {case}, se refiere ahora a otro paciente o a otro producto. Allí no se cambió nada de ese caso.',
  'remedy.register.not-ours':
    'Averigüe en {destination} quién lo cambió. Cuando esté bien, ejecute casetally register update-destinations.',
  'finding.register.several-there':
    '{destination} tiene varios recursos con un mismo identificador del caso {case}: {addresses}. No se cambió ninguno.',
  'remedy.register.several-there':
    'Haga eliminar los duplicados en {destination} y ejecute después casetally register update-destinations.',
  'finding.register.gone': '{destination} ya no tiene {address} del caso {case}. No se creó de nuevo.',
  'remedy.register.gone':
    'Si se eliminó por error, hágalo restaurar en {destination} y ejecute después casetally register update-destinations --to {destination} --all.',
  'finding.register.no-versions':
    '{destination} no indica la versión de {address} (caso {case}), de modo que un cambio que otra persona haga entretanto se sobrescribiría. No se actualizó.',
  'remedy.register.no-versions':
    'Haga que se actualice a mano en {destination}; o acepte ese riesgo: casetally register update-destinations --without-versions.',
  'finding.register.update-refused':
    '{destination} rechazó la lectura o la actualización de {address} del caso {case} (HTTP {status}).',
  'remedy.register.update-refused':
    'Pregunte a los administradores de {destination} si este remitente puede buscarlo, leerlo y actualizarlo, y ejecute después casetally register update-destinations.',
  'finding.register.not-whole':
    '{destination} devolvió solo una parte de {address} (caso {case}). No se actualizó, porque se perdería el resto.',
  'remedy.register.not-whole':
    'Pida a los administradores de {destination} que este remitente pueda leer recursos completos y ejecute después casetally register update-destinations.',
} as const satisfies Partial<Record<MessageKey, string>>;
