/** A complication as texts tell of it. */
export interface ComplicationWord {
  readonly name: string;
  readonly words: RegExp;
  /** The same thing where it is why the case was done: then telling of it tells of no complication. */
  readonly reason: RegExp;
}

const row = (name: string, words: string, reason = words): ComplicationWord => ({
  name,
  words: new RegExp(`\\b(?:${words})\\b`, 'i'),
  reason: new RegExp(`\\b(?:${reason})\\b`, 'i'),
});

/** Whole phrases only. Common practice, no source. */
export const complicationWords: readonly ComplicationWord[] = [
  row(
    'perforation',
    'perforat(?:ion|ed)|lacerat(?:ion|ed)|(?:artery|vein|vessel|duct|capsule|aneurysm|spleen|bladder|ureter|bowel) (?:is |was |has )?ruptured?|rupture of the',
    'perforat\\w+|lacerat\\w+|ruptur\\w+|trauma|injur\\w+',
  ),
  row('dissection', '(?<!blunt |sharp |finger |subintimal )dissection|flow-limiting flap', 'dissect\\w+'),
  row('pneumothorax', 'pneumothorax|hydropneumothorax', 'pneumothora\\w+|lung collapse|air leak'),
  row('haemothorax', 'ha?emothorax', 'ha?emothorax|trauma'),
  row(
    'bleeding',
    'ha?emorrhage|ha?emoptysis|ha?emoperitoneum|(?:active|arterial|brisk|major|heavy|profuse|severe|persistent|ongoing) bleeding|(?:artery|vein|vessel|tract|capsule) (?:is )?bleeding|(?:artery|vein|vessel|tract|capsule) bleeds|bleeding (?:into|from|around|along|at|beside)|blood (?:in|into) the (?:peritoneum|peritoneal cavity|pleura|pleural space|retroperitoneum|abdomen|belly)',
    'bleed\\w*|ha?emorrhag\\w*|ha?emoptysis|epistaxis|ha?ematemesis|mela?ena|varic\\w+|trauma|postpartum|extravasation',
  ),
  row('haematoma', 'ha?ematomas?', 'ha?ematoma\\w*|trauma'),
  row(
    'pseudoaneurysm',
    'pseudo-?aneurysm|false aneurysm|arteriovenous fistula formed',
    'pseudo-?aneurysm|aneurysm|fistula|trauma',
  ),
  row(
    'extravasation',
    'extravasation|extravasates',
    'extravasation|bleed\\w*|ha?emorrhag\\w*|leak\\w*|rupture\\w*|trauma|urinoma',
  ),
  row(
    'organ injury',
    '(?:bowel|colon|colonic|gut|bladder|nerve|duct|splenic|ureteric|vessel|arterial|thermal|skin) injury|(?:bowel|colon|gut|bladder|nerve|duct|spleen|liver) (?:was )?injured|injury (?:of|to) the (?:bowel|colon|bladder|nerve|spleen|liver|duct|ureter)|burn of the (?:bowel|colon|skin|duct)|(?:colon|bowel|gut) (?:wall )?(?:burnt|burned|punctured|transfixed)',
    'injur\\w+|trauma|burn',
  ),
  row(
    'embolisation of another vessel',
    'non-?target embolisation|distal embol(?:us|i|isation)|embol(?:us|i) (?:in|into|to) a new territory|new territory|coil migrat(?:ed|ion)|(?:stent|coil|filter|plug) (?:has )?migrated|air embol(?:us|ism)',
    'migrat\\w+|air embol\\w+|distal embol\\w+',
  ),
  row(
    'cement leak',
    '(?:cement|leak\\w*) (?:\\w+ ){0,3}(?:in|into) the (?:spinal )?(?:canal|disc|foramen|epidural space)|cement (?:embolus|embolism)|cement in (?:a|the) (?:lung|pulmonary|epidural) (?:artery|vein)',
    'cement (?:leak\\w*|embol\\w*)',
  ),
  row(
    'new weakness',
    '(?:new|sudden) (?:\\w+ ){0,3}(?:weakness|palsy|paralysis|numbness|deficit|aphasia)|(?:weakness|palsy|paralysis) of (?:the|one|his|her|both) (?:\\w+ )?(?:legs?|arms?|hand|face)|(?:legs?|arm|foot|hand) (?:weakness|weak)|cannot (?:lift|move) (?:the|his|her)',
    'weakness|palsy|paralysis|paresis|stroke|deficit|claudication|radiculopathy|cord compression',
  ),
  row(
    'reaction',
    'anaphyla(?:xis|ctic)|urticaria|wheals|hives|bronchospasm|laryngeal oedema|allergic reaction|contrast reaction',
    'anaphyla\\w+|urticaria|asthma',
  ),
  row(
    'cardiac arrest',
    'cardiac arrest|resuscitat(?:ed|ion)|asystole|ventricular fibrillation',
    'cardiac arrest|resuscitat\\w+',
  ),
  row(
    'sepsis',
    'septic shock|rigors|septic(?:aemia)? after',
    'sep(?:sis|tic)\\w*|rigors|cholangitis|abscess|empyema|infected',
  ),
];

/** Complications that are told by one another's names: a perforated artery bleeds, and the blood is a haematoma. */
const kin: readonly (readonly string[])[] = [
  [
    'perforation',
    'dissection',
    'bleeding',
    'haematoma',
    'haemothorax',
    'pseudoaneurysm',
    'extravasation',
    'organ injury',
  ],
  ['pneumothorax', 'haemothorax'],
  ['embolisation of another vessel', 'cement leak', 'new weakness'],
  ['reaction', 'cardiac arrest', 'sepsis'],
];

export const areKin = (a: ComplicationWord, b: ComplicationWord): boolean =>
  kin.some(group => group.includes(a.name) && group.includes(b.name));

/** Said of what did not happen, might happen, or was there before. */
const denied =
  /\b(?:no|not|nor|without|never|none|neither|denies|absent|free of|negative for|excludes?|excluding|to exclude|ruled out|rule out|risk of|in case of|if|should|known|previous(?:ly)?|prior|earlier|old|pre-existing|resolved|possible later|watch for|look for|signs? of no|unchanged|avoid(?:ed|ing)?|prevent(?:ed|s|ing)?|instead of)\b/i;
const deniedAfter =
  /\b(?:excluded|ruled out|absent|not seen|not found|none|was not|were not|stopped|has stopped|stops|controlled|no longer)\b/i;

/** Characters of a text that are looked at. */
const LONGEST = 5000;

/** Whether a text tells of something, and not that it is not so. */
export function tells(text: string, words: RegExp): boolean {
  return text
    .slice(0, LONGEST)
    .split(/[;.]\s|;|\n|\bbut\b|\bhowever\b/i)
    .some(clause => {
      const found = words.exec(clause);
      if (!found) return false;
      const before = clause.slice(0, found.index);
      // A denial reaches over a list ('no clot, dissection or spasm'), not over a clause with a verb of its own.
      const near = before.split(/,\s+(?=(?:\w+\s+){2,}\w*$)/).at(-1) ?? before;
      return !denied.test(near) && !deniedAfter.test(clause.slice(found.index + found[0].length));
    });
}

/** The complications that a text tells of. */
export const complicationsTold = (text: string): readonly ComplicationWord[] =>
  complicationWords.filter(({ words }) => tells(text, words));
