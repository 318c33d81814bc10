import type { course as en } from '../en/course.js';

/** Im Eingriff festgestellte Allergien, Verlauf von Erkrankungen, Messungen und Änderungen. */
export const course: Record<keyof typeof en, string> = {
  'allergies.found': 'In diesem Eingriff festgestellt: {what}',
  'allergies.noneBefore': 'Vor dem Eingriff keine bekannt',
  'allergies.beforeNotRecorded': 'Vor dem Eingriff: nicht dokumentiert',
  'allergies.substanceUnknown': 'Auslöser nicht bekannt',
  'certainty.unconfirmed': 'noch nicht bestätigt',
  'certainty.confirmed': 'bestätigt',
  'notice.allergyFound': 'NEUE ALLERGIE, in diesem Eingriff festgestellt: {list}.',
  'patientNotice.allergyFound':
    'Sie hatten beim Eingriff eine Reaktion, die eine Allergie sein kann: {list}. Bitte sagen Sie es allen, die Sie behandeln.',
  'patientKnow.allergiesFound': 'Neu seit diesem Eingriff: {list}.',
  'patientKnow.noAllergiesBefore': 'Davor kannten wir keine Allergien.',
  'complication.suspect': 'Zurückgeführt auf: {value}',
  'complication.certainty': 'Allergie: {value}',
  'conditionStatus.active': 'aktiv',
  'conditionStatus.resolved': 'ausgeheilt',
  'conditionStatus.history': 'früher',
  'condition.since': 'seit {value}',
  'condition.until': 'bis {value}',
};
