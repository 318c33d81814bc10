/** Allergies found in the case, conditions with their course, and what was measured and changed during it. */
export const course = {
  'allergies.found': 'Found in this case: {what}',
  'allergies.noneBefore': 'None known before the case',
  'allergies.beforeNotRecorded': 'Before the case: not recorded',
  'allergies.substanceUnknown': 'substance not known',
  'certainty.unconfirmed': 'not yet confirmed',
  'certainty.confirmed': 'confirmed',
  'notice.allergyFound': 'NEW ALLERGY, found in this case: {list}.',
  'patientNotice.allergyFound':
    'You had a reaction during the procedure that may be an allergy: {list}. Please tell everyone who treats you.',
  'patientKnow.allergiesFound': 'New since this procedure: {list}.',
  'patientKnow.noAllergiesBefore': 'Before it we knew of no allergies.',
  'complication.suspect': 'Put down to: {value}',
  'complication.certainty': 'Allergy: {value}',
  'conditionStatus.active': 'active',
  'conditionStatus.resolved': 'resolved',
  'conditionStatus.history': 'in the past',
  'condition.since': 'since {value}',
  'condition.until': 'until {value}',
} as const;
