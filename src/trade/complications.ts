import { remembered } from '../record/remembered.js';
import { type ComplicationWord, complicationWords } from './complication-words.js';

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
  ['perforation', 'organ injury', 'leak', 'pneumothorax', 'wrong vessel punctured', 'dural puncture'],
  ['haematoma', 'bleeding', 'wrong vessel punctured', 'pseudoaneurysm', 'low blood pressure', 'haemothorax'],
  ['embolisation of another vessel', 'infarction', 'cement leak', 'new weakness', 'clot', 'cold limb'],
  ['dissection', 'clot', 'cold limb', 'perforation'],
  ['reaction', 'cardiac arrest', 'sepsis', 'low blood pressure', 'breathing trouble', 'faint'],
  ['arrhythmia', 'cardiac arrest', 'faint', 'low blood pressure'],
  ['breathing trouble', 'aspiration into the lungs', 'lung oedema', 'pneumothorax', 'cardiac arrest'],
  ['pneumothorax', 'breathing trouble', 'low blood pressure', 'cardiac arrest'],
  ['leak', 'sepsis', 'perforation', 'extravasation', 'bleeding'],
  ['local anaesthetic toxicity', 'new weakness', 'arrhythmia', 'cardiac arrest', 'mistake'],
  ['dural puncture', 'new weakness'],
  ['mistake', 'embolisation of another vessel', 'wrong vessel punctured'],
  ['skin damage', 'organ injury', 'extravasation'],
  ['broken or lost piece', 'embolisation of another vessel', 'organ injury', 'perforation', 'mistake'],
];

export const areKin = (a: ComplicationWord, b: ComplicationWord): boolean =>
  kin.some(group => group.includes(a.name) && group.includes(b.name));

/** Said of what did not happen, might happen, or was there before. */
const denied =
  /\b(?:no|not|nor|without|never|none|neither|denies|absent|free of|negative for|excludes?|excluding|to exclude|ruled out|rule out|risk of|in case of|if|should|known|previous(?:ly)?|prior|earlier|old|pre-existing|resolved|possible later|watch for|look for|signs? of no|unchanged|avoid(?:ed|ing)?|prevent(?:ed|s|ing)?|instead of|history of|may|might|could be|would|when|whenever|any|allergic to|years? ago|ask(?:ed)? about|told (?:of|about)|warned (?:of|about)|discussed|explained|need for|in the past|childhood|family)\b/i;
const deniedAfter =
  /\b(?:excluded|ruled out|absent|not seen|not found|none|was not|were not|stopped|has stopped|stops|controlled|no longer|years? ago|in (?:19|20)\d\d|since (?:19|20)\d\d|before the case|on arrival|is a risk|as before|long-?standing|in the past)\b/i;

/** Words that say of themselves what is not so: no denial before them reaches over a comma. */
const ownVerb = /^(?:can|could|unable|does|no longer)\b|^can(?:no|')t/i;

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
      const parts = before.split(ownVerb.test(found[0]) ? /,\s+/ : /,\s+(?=(?:\w+\s+){2,}\w*$)/);
      const near = parts.at(-1) ?? before;
      return !denied.test(near) && !deniedAfter.test(clause.slice(found.index + found[0].length));
    });
}

const hypothetical =
  /\b(?:call|ring|phone|watch|look|check|if|when|whenever|in case|may|might|any|signs?|symptoms?|come (?:back|at once)|report|until|usual|normal|expect\w*|avoid|prevent|tell|seek|risk|observe|monitor|inspect|exclude|unless|for (?:fever|pain|bleeding|swelling|weakness|redness))\b/i;
const stated =
  /(?:^|\b(?:because of|due to|given|in view of|after|had|has|there is|there was|developed|treated for) )(?:(?:a|an|the|his|her|known|new|small|large|big|moderate|tiny|severe|left|right|\d+ ?(?:mm|cm|mL)) )*$/i;

/** The complications of which advice or a task speaks as of something that is there, not as of something to look for. */
export const complicationsAdvised: (text: string) => readonly ComplicationWord[] = remembered(text =>
  complicationWords.filter(({ words }) =>
    text
      .slice(0, LONGEST)
      .split(/[;,.]\s|[;\n]/)
      .some(clause => {
        const found = words.exec(clause.trim());
        if (!found || hypothetical.test(clause) || !stated.test(clause.trim().slice(0, found.index)))
          return false;
        // A bare noun is a heading of what to look for; something of it must be told.
        return /\d|\b(?:large|small|big|known|new|severe|tiny|moderate|of the|had|has|was|because of|due to|developed|treated for)\b/i.test(
          clause,
        );
      }),
  ),
);

/** The complications that a text tells of. */
export const complicationsTold: (text: string) => readonly ComplicationWord[] = remembered(text =>
  complicationWords.filter(({ words }) => tells(text, words)),
);
