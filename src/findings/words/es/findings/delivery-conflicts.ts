import type { MessageKey } from '../../../message.js';

/** Conflictos en la entrega. */
export const deliveryConflictsFindings = {
  'finding.delivery.conflict': '{destination} tiene otro estado de este caso ({status}); no se sobrescribió.',
  'remedy.delivery.conflict':
    'Compare los dos estados, indicados abajo campo por campo, cada uno con lo que se puede hacer.',
  'finding.delivery.item-unreadable':
    'Lo que la bandeja de salida guarda del elemento {id} se modificó o se cortó: no se puede enviar.',
  'remedy.delivery.item-unreadable':
    'Envíe de nuevo el caso desde su registro; después casetally outbox discard {id}. casetally outbox doctor revisa lo demás.',
  'finding.delivery.written-at-once':
    '{destination} estaba escribiendo en ese momento algo de este caso para otro remitente, como el paciente de otro caso ({status}); no se cambió nada de ello.',
  'remedy.delivery.written-at-once': 'Se envía de nuevo por sí solo.',
  'finding.delivery.edited-there':
    '{address} se modificó allí: {element} es {held}; esta versión del registro tiene {sent}.',
  'remedy.delivery.edited-there':
    'Quedarse con lo de allí: anótelo en el registro para la próxima versión, y casetally outbox discard ITEM. Sobrescribir lo de allí: casetally outbox retry ITEM --overwrite --by NAME --why TEXT.',
  'finding.delivery.held-otherwise':
    '{address} ya está allí: {element} es {held}; este registro tiene {sent}.',
  'remedy.delivery.held-otherwise':
    'Quedarse con lo de allí: corrija el registro, y casetally outbox discard ITEM. Sustituir lo de allí: envíe el registro como versión nueva (report.status amended, una versión más alta).',
} as const satisfies Partial<Record<MessageKey, string>>;
