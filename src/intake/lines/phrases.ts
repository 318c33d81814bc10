import { listOf } from '../../trade/names.js';
import type { Entry, Particle, Preposition } from './entry.js';

const all = (words: string, entry: Entry): [string, Entry][] => listOf(words).map(word => [word, entry]);
const preposition = (words: string, one: Preposition) =>
  all(words, { role: 'preposition', preposition: one });
const particle = (words: string, one: Particle) => all(words, { role: 'particle', particle: one });
const doubt = (words: string, one: 'denied' | 'tried' | 'open') => all(words, { role: 'doubt', doubt: one });
const guidance = (words: string, one: string) => all(words, { role: 'guidance', guidance: one });
const route = (words: string, one: string) => all(words, { role: 'route', route: one });
const state = (words: string, one: 'intact' | 'damaged' | 'part missing') =>
  all(words, { role: 'state', state: one });
const given = (words: string, agent: string) => all(words, { role: 'fluid', agent, out: false });

/** Words and phrases beside verbs and devices. Common practice, no source. */
export const phrases: readonly (readonly [string, Entry])[] = [
  ...preposition('over|overtop', 'over'),
  ...preposition('through|thru|via|inside', 'through'),
  ...preposition('across|past', 'across'),
  ...preposition('into|in to|within', 'into'),
  ...preposition('to|up to|down to|as far as|until', 'to'),
  ...preposition('on|onto|left on|put on|placed on|connected to|attached to', 'on'),
  ...preposition('with|using|by', 'with'),
  ...preposition('for', 'for'),
  ...preposition('from|out of|off the', 'from'),
  ...preposition('under', 'under'),
  ...preposition(
    'at|beyond|above|below|near|beside|along|just above|just below|alongside|proximal to|distal to|tip at|tip in',
    'near',
  ),
  ...particle('in|back in', 'in'),
  ...particle('out|off|out again|back out|all the way out', 'out'),
  ...particle('up', 'up'),
  ...particle('down', 'down'),
  ...particle('back', 'back'),
  ...all('and|&|plus', { role: 'joint', joint: 'and' }),
  ...all('then|and then|followed by|next|afterwards', { role: 'joint', joint: 'then' }),
  ...all('the|a|an|my|our|his|her', { role: 'article' }),
  ...all('that|this|same|the same|that same', { role: 'pointing', alone: false }),
  ...all('it|that one|this one|the same one', { role: 'pointing', alone: true }),
  ...all(
    'i|we|access|was|is|were|are|has been|have been|been|has|have|had|now|again|gently|slowly|carefully|easily|smoothly|ok|okay|' +
      'uneventfully|in place|in position|of|so|there|successfully|under vision|performed|done|made|given|via the|size|sized|gave|give|x|together',
    { role: 'filler' },
  ),
  ...doubt(
    "not|no|never|n't|without|didn't|did not|wasn't|nor|neither|instead of|rather than|don't|hasn't|isn't|won't|nil",
    'denied',
  ),
  ...doubt(
    "tried|tried to|try to|trying to|attempted|attempted to|attempt to|attempt|attempting|failed|failed to|couldn't|could not|unable to|" +
      "cannot|can't|wouldn't|would not|unsuccessful|unsuccessfully|difficulty|struggled to",
    'tried',
  ),
  ...doubt(
    'almost|nearly|partly|partially|half|halfway|half way|part of|most of|some of|will|going to|about to|should|shall|would|could|may|' +
      'might|maybe|perhaps|probably|possibly|think|plan|planning to|plan to|want to|need|need to|needs|if|unless|before|after|' +
      'except|but|ready|ready to|either|or|else|other|the other|accidentally|pieces|fragments|fragment|wrong|missing|retained|left behind|behind|stuck|twice|?',
    'open',
  ),
  ...all('no make that|make that|i mean|sorry|correction|no sorry|scratch that|rather|no wait|actually', {
    role: 'correction',
  }),
  ...state('intact|tip intact|complete|whole|in one piece|all intact|undamaged|inspected intact', 'intact'),
  ...state('bent|damaged|frayed|torn|broken tip|unravelled|kinked tip', 'damaged'),
  ...state('tip missing|part missing|incomplete|not complete', 'part missing'),
  ...all('another|one more|a further', { role: 'which', count: 1, more: true }),
  ...all('more|further|additional', { role: 'which', more: true }),
  ...all('first|second|third|fourth|fifth|sixth|seventh|eighth|last|final', { role: 'which', count: 1 }),
  ...all('number', { role: 'which', count: 1 }),
  ...given('contrast|contrast medium|contrast media|dye', 'contrast'),
  ...given('saline|normal saline|nacl|ns|sterile saline|heparinised saline|heparinized saline', 'saline'),
  ...given('water|sterile water', 'water'),
  ...given('air', 'air'),
  ...given('co2|carbon dioxide', 'carbon dioxide'),
  ...all(
    'bile|dark bile|clear bile|urine|clear urine|cloudy urine|pus|blood|fluid|clear fluid|turbid fluid|ascites|clear ascites|old blood|' +
      'frank pus|straw coloured fluid|pleural fluid|dark clear bile|clot|thrombus',
    { role: 'fluid', agent: '', out: true },
  ),
  ...route('iv|intravenous|intravenously', 'intravenous'),
  ...route('ia|intraarterial|intraarterially', 'intra-arterial'),
  ...route(
    'local|locally|skin infiltration|local infiltration|local anaesthetic|local anesthetic|to skin|to the skin',
    'local infiltration',
  ),
  ...route('po|oral|orally|by mouth', 'oral'),
  ...route('sc|subcut|subcutaneous|subcutaneously', 'subcutaneous'),
  ...route('im|intramuscular|intramuscularly', 'intramuscular'),
  ...guidance(
    'ultrasound|us|ultrasound guided|us guided|ultrasound guidance|under ultrasound|under ultrasound guidance|under us|with ultrasound|' +
      'us guidance|under us guidance',
    'ultrasound',
  ),
  ...guidance('ct guided|under ct|ct guidance|under ct guidance|with ct', 'computed tomography'),
  ...guidance(
    'under fluoro|under fluoroscopy|fluoroscopy|fluoroscopic guidance|under screening|under fluoroscopic guidance',
    'fluoroscopy',
  ),
  ...all(
    'free drainage|free drainage into a bag|free drainage into bag|free drainage to a bag|gravity drainage|gravity|bag|a bag|' +
      'drainage bag|leg bag|underwater seal|suction|low suction|wall suction|bag drainage|free flow into a bag|bile bag|urine bag',
    { role: 'setting' },
  ),
  ...all(
    'adhesive fixation device|adhesive fixation|adhesive device|sutures|stitch|a stitch|silk suture|skin suture|dressing|adhesive dressing',
    { role: 'fixing' },
  ),
  ...all('core|cores|pass|passes|biopsy|biopsies|specimen|specimens|sample|samples', { role: 'specimen' }),
  ...all('pressure|pressures|gradient|mean|mean pressure|systolic', { role: 'reading' }),
  ...all(
    'free flow|good flow|brisk flow|good position|satisfactory position|good result|waist gone|no waist|well positioned|' +
      'good opacification|position confirmed|position checked|confirmed|no extravasation|no leak|no residual stenosis|no residual|no bleeding|no pneumothorax|no complication|no complications|' +
      'no immediate complication|no free fluid|good backflow|good backbleed|aspirates and flushes well',
    { role: 'seen' },
  ),
];
