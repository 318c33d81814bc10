import type { MessageKey } from '../../../message.js';

/** Entradas para peticiones con las que empieza un registro. */
export const intakeOrderFindings = {
  'finding.intake.order-not-found':
    '{destination} no tiene ninguna petición, número de acceso ni episodio con el número {number}.',
  'remedy.intake.order-not-found':
    'Compruebe el número; si varios sistemas numeran peticiones, escriba SISTEMA|NÚMERO.',
  'finding.intake.order-several':
    '{number} es el número de varias peticiones en {destination}: {orders}. No se tomó ninguna.',
  'remedy.intake.order-several': 'Indique cuál es, como SISTEMA|NÚMERO.',
  'finding.intake.order-void': '{destination} tiene la petición {number} como introducida por error.',
  'remedy.intake.order-void': 'Pregunte a quien hizo la petición.',
  'finding.intake.order-called-off': '{what} de {number} tiene el estado {status} en {destination}.',
  'remedy.intake.order-called-off': 'Pregunte a quien hizo la petición si todavía se desea el procedimiento.',
  'finding.intake.order-without-patient':
    'La petición {number} no nombra a ningún paciente que {destination} entregue.',
  'remedy.intake.order-without-patient': 'Busque al paciente de la petición en la historia clínica.',
  'finding.intake.of-other-patient':
    '{destination} entregó {count} de {what} que son de otro paciente o no nombran a ninguno; se pasaron por alto.',
  'remedy.intake.of-other-patient':
    'Dígaselo a quien cuida el servidor: no busca por el paciente que se le pidió.',
  'finding.intake.not-answered':
    '{destination} no entregó {what}: {why}. El registro no dice nada al respecto.',
  'remedy.intake.not-answered': 'Consulte la historia clínica y anote lo que haya.',
  'finding.intake.more-there': '{destination} tiene más {what} de los que se leyeron.',
  'remedy.intake.more-there': 'Mire en la historia clínica lo que falta aquí.',
  'finding.intake.not-taken': '{what}: {count} no se tomaron: {why}.',
  'remedy.intake.not-taken': 'Anótelo a mano donde importe para el caso.',
} as const satisfies Partial<Record<MessageKey, string>>;
