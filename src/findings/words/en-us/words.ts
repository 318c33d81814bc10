/** English as spelled in the United States: what differs from the spelling of the United Kingdom. */
export const enUS = {
  'date.weekday': '{weekday}, {date}',
  'label.organization': 'Organization',
  'column.where': 'Organization and telephone',
  'label.sedation': 'Sedation or anesthesia',
  'role.anaesthetist': 'Anesthesiologist',
  'role.radiographer': 'Radiologic technologist',
  'sedation.local anaesthesia only': 'Local anesthesia only',
  'sedation.regional anaesthesia': 'Regional anesthesia',
  'sedation.general anaesthesia': 'General anesthesia',
  'purpose.local anaesthesia': 'local anesthesia',
  'purpose.haemostasis': 'hemostasis',
  'purpose.vasodilatation': 'vasodilation',
  'treatment.intervention under general anaesthesia': 'Further intervention under general anesthesia',
  'by.family doctor': 'Primary care physician',
} as const;
