import type { course as en } from '../en/course.js';

/** Alergias halladas en el procedimiento, curso de las enfermedades, mediciones y cambios. */
export const course: Record<keyof typeof en, string> = {
  'allergies.found': 'Hallada en este procedimiento: {what}',
  'allergies.noneBefore': 'Ninguna conocida antes del procedimiento',
  'allergies.beforeNotRecorded': 'Antes del procedimiento: no consta',
  'allergies.substanceUnknown': 'sustancia desconocida',
  'certainty.unconfirmed': 'aún sin confirmar',
  'certainty.confirmed': 'confirmada',
  'notice.allergyFound': 'ALERGIA NUEVA, hallada en este procedimiento: {list}.',
  'patientNotice.allergyFound':
    'Durante el procedimiento tuvo una reacción que puede ser una alergia: {list}. Dígaselo a todos los que le atiendan.',
  'patientKnow.allergiesFound': 'Nuevo desde este procedimiento: {list}.',
  'patientKnow.noAllergiesBefore': 'Antes no sabíamos de ninguna alergia.',
  'complication.suspect': 'Atribuida a: {value}',
  'complication.certainty': 'Alergia: {value}',
  'conditionStatus.active': 'activa',
  'conditionStatus.resolved': 'resuelta',
  'conditionStatus.history': 'antecedente',
  'condition.since': 'desde {value}',
  'condition.until': 'hasta {value}',
};
