/** Words of the shorter reports, each for one reader. */
export const readers = {
  'referrer.done': 'What was done',
  'referrer.inside': 'What is inside now',
  'referrer.you': 'What you must do, and when',
  'referrer.youNone': 'Nothing is recorded for you to do.',
  'referrer.others': 'What others will do',
  'referrer.call': 'Whom to call',
  'referrer.know': 'Also know',
  'referrer.unsure': 'Call the department that did the procedure.',
  'ward.done': 'What was done',
  'ward.inside': 'Drains, lines and devices: how they are set',
  'ward.you': 'What the ward does, and when',
  'ward.youNone': 'Nothing is recorded for the ward to do.',
  'ward.others': 'What others will do',
  'ward.call': 'When to call, and whom',
  'ward.know': 'Condition and risks',
  'ward.drugs': 'Drugs given in the procedure',
} as const;
