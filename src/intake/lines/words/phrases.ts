import { listOf } from '../../../trade/names.js';
import type { Entry, Particle, Preposition } from './entry.js';

const all = (words: string, entry: Entry): [string, Entry][] => listOf(words).map(word => [word, entry]);
const preposition = (words: string, one: Preposition) =>
  all(words, { role: 'preposition', preposition: one });
const particle = (words: string, one: Particle) => all(words, { role: 'particle', particle: one });
const doubt = (words: string, one: 'denied' | 'tried' | 'failed' | 'planned' | 'open') =>
  all(words, { role: 'doubt', doubt: one });
const guidance = (words: string, one: string) => all(words, { role: 'guidance', guidance: one });
const route = (words: string, one: string) => all(words, { role: 'route', route: one });
const purpose = (words: string, one: string) => all(words, { role: 'purpose', purpose: one });
const state = (words: string, one: 'intact' | 'damaged' | 'part missing') =>
  all(words, { role: 'state', state: one });
const given = (words: string, agent: string) => all(words, { role: 'fluid', agent, out: false });

/** Words and phrases beside verbs and devices. Common practice, no source. */
export const phrases: readonly (readonly [string, Entry])[] = [
  ...preposition('over|overtop|over top of|over the top of|along|o', 'over'),
  ...preposition('through|thru|via|inside|thro|through to', 'through'),
  ...preposition('across|past|beyond the|accross', 'across'),
  ...preposition('into|in to|within|onto', 'into'),
  ...preposition('to|up to|down to|as far as|up as far as|down as far as|all the way to', 'to'),
  ...preposition(
    'on|left on|put onto|put on|placed on|connected to|connected up to|attached to|hooked to|hooked up to|hooked it up to|connected it to|plugged into|joined to|on to',
    'on',
  ),
  ...preposition('with|using|by|w|by means of|utilising|utilizing', 'with'),
  ...preposition('for', 'for'),
  ...preposition('from|out of|off the', 'from'),
  ...preposition('under', 'under'),
  ...preposition('until|till|to stasis|until there was|off the renals', 'near'),
  ...preposition(
    'parallel to|next to|adjacent to|apart from|to tilt|to free|to exchange|to measure|to size|to guide|to embolise|to hold it|to stop|to stabilize|to secure it|to keep it|for support|for safety|for stability|for better support|to help|to secure|to hold|to support|to protect|to check|to confirm|to keep|to mark|to steer|to straighten|to stabilise|to opacify|to see|' +
      'to get|to catch|to allow|to show|to clear|to measure|to engage|to reach|to turn|to rotate|to guide|for access|towards|toward|around|round|between|against|behind the|' +
      'at|beyond|above|below|near|beside|just above|just below|alongside|proximal to|distal to|tip at|tip in',
    'near',
  ),
  ...particle('in|back in|in again|into place|in position now', 'in'),
  ...particle(
    'out|off|out again|back out|all the way out|right out|away|straight out|completely out|out completely|out altogether|right off|back out again|all out',
    'out',
  ),
  ...particle('up|to nominal|up to nominal|to rated|to rated pressure', 'up'),
  ...particle('down', 'down'),
  ...particle('back', 'back'),
  ...all('and|&|plus|+|und|n', { role: 'joint', joint: 'and' }),
  ...all(
    'then|and then|followed by|next|afterwards|so|so then|before that|because|since|whereupon|after which|thereafter|subsequently|and so|while|whilst|meanwhile|once that was done|once done|at which point|and after that|after that|as there is|as there was',
    { role: 'joint', joint: 'then' },
  ),
  ...all('the|a|an|my|our|his|her|some|its|their', { role: 'article' }),
  ...all('that|this|same|the same|that same|those|these|said', { role: 'pointing', alone: false }),
  ...all('same again|and again|repeated|repeat', { role: 'filler' }),
  ...all('it|that one|this one|the same one|them|which|itself', { role: 'pointing', alone: true }),
  ...all(
    "'s|i|we|access|was|is|were|are|has been|have been|had been|being|been|be|has|have|had|now|again|gently|slowly|carefully|easily|smoothly|ok|okay|she|he|they|there's|" +
      'uneventfully|in place|in position|of|so far|there|successfully|under vision|performed|done|made|given|size|sized|gave|give|given|administered|used|total|in total|all|x|together|antegrade|antegradely|retrograde|retrogradely|percutaneously|coaxially|coaxial with|directly|freely|fully|properly|today|' +
      'obtained|acquired|achieved|completed|sterile|under sterile conditions|with ease|each side|on both sides|throughout|distally|proximally|both ways|also|nominal',
    { role: 'filler' },
  ),
  ...doubt(
    "not|no|never|n't|without|didn't|did not|wasn't|weren't|nor|neither|instead of|rather than|don't|do not|doesn't|does not|hasn't|haven't|hadn't|has not|have not|isn't|is not|was not|aren't|won't|will not|nil|nothing|none|omitted|skipped|declined|deferred|abandoned|cancelled|canceled|aborted|held off|decided against|avoided|didn't need|did not need|no need for|no need to|not needed|not required|not used|unused|not yet|yet to",
    'denied',
  ),
  ...doubt(
    'tried|tried for|try|tries|tried with|had a go|having a go|went for|tried to|try to|trying to|attempted|attempted to|attempt to|attempt|attempting|difficulty|struggled to|struggling to|trying|missed|kept missing',
    'tried',
  ),
  ...doubt(
    "failed|fails|fails to|failing to|failed to|refused to|refuses to|did not cross|didn't cross|not crossing|would not go|wouldn't go|wouldn't cross|would not cross|won't pass|would not pass|wouldn't pass|tried and failed to|tried to and failed|tried but failed to|attempted and failed to|tried but couldn't|couldn't|could not|unable to|" +
      "cannot|can't|wouldn't|would not|won't go|will not go|unsuccessful|unsuccessfully|didn't manage to|did not manage to|not able to|no luck getting|" +
      'failed attempt to|unsuccessful attempt to|failed to get',
    'failed',
  ),
  ...doubt(
    "please|kindly|next up|will|will need|will be|to be|'ll|going to|about to|should|shall|would|could|may|might|maybe|perhaps|probably|possibly|think|plan|planning to|plan to|want to|wants to|" +
      "need|need to|needs|needs to|if|unless|ready|ready to|we'll|i'll|let's|gonna|next we|thinking of|considering|consider|should have|could have|would have|better to|happy to|hoping to|due to|expect to|to do|later|tomorrow|next week|next time|tonight|in future|scheduled|planned|intend to|intending to|aim to|aiming to|prepare to|preparing to|about|approx|approximately|roughly|circa|ca|wondering|wonder|hopefully|ideally|asked for|asking for|request|requested|requesting|waiting for|awaiting|wait for|order|ordered|ask",
    'planned',
  ),
  ...doubt(
    "yesterday|last week|last month|last year|in march|previously|earlier today|ago|some time ago|by the ward|by the other team|other patient|another patient|next patient|next door patient|patient in|bed|bay|room|stopped|believe|i believe|guess|i guess|reckon|apparently|supposedly|allegedly|unsure|not sure|unclear|unknown|whether|don't know|dunno|almost|nearly|partly|partially|half|halfway|half way|part of|most of|some of|before|after|" +
      'except|but|either|or|else|other|the other|accidentally|pieces|fragments|fragment|wrong|missing|retained|left behind|behind|stuck|?',
    'open',
  ),
  ...all(
    'no make that|make that|i mean|sorry|sorry no|no i mean|correction|no sorry|scratch that|rather|no wait|actually',
    {
      role: 'correction',
    },
  ),
  ...state(
    'intact|tip intact|all in one piece|tip and all|complete|whole|in one piece|all intact|undamaged|inspected intact',
    'intact',
  ),
  ...state('bent|damaged|frayed|torn|broken tip|unravelled|kinked tip', 'damaged'),
  ...state('tip missing|part missing|incomplete|not complete', 'part missing'),
  ...all('another|one more|a further', { role: 'which', count: 1, more: true }),
  ...all('more|further|additional', { role: 'which', more: true }),
  ...all('x|times|twice|thrice|each|apiece|two times|three times|several times|a few times|repeatedly', {
    role: 'times',
  }),
  ...all(
    'first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|1st|2nd|3rd|4th|5th|6th|7th|8th|last|final',
    { role: 'which', count: 1 },
  ),
  ...all('number', { role: 'which', count: 1 }),
  ...given('contrast|contrast medium|contrast media|contrast agent|iodinated contrast|dye|km', 'contrast'),
  ...given(
    'saline|normal saline|nacl|ns|sterile saline|heparinised saline|heparinized saline|heparin saline|hepsaline|hep saline|physiological saline|sodium chloride',
    'saline',
  ),
  ...given('citrate|sodium citrate|trisodium citrate', 'citrate'),
  ...given('water|sterile water|distilled water', 'water'),
  ...given('air|room air', 'air'),
  ...given('co2|carbon dioxide', 'carbon dioxide'),
  ...all(
    'bile|dark bile|clear bile|urine|clear urine|cloudy urine|pus|blood|fluid|clear fluid|turbid fluid|ascites|clear ascites|old blood|' +
      'frank pus|straw coloured fluid|pleural fluid|dark clear bile|clot|thrombus',
    { role: 'fluid', agent: '', out: true },
  ),
  ...route('iv|intravenous|intravenously', 'intravenous'),
  ...route('ia|intraarterial|intraarterially', 'intra-arterial'),
  ...route(
    'local|locally|skin infiltration|to skin and muscle|to the skin and muscle|to skin and tract|to the tract|to skin and capsule|to skin and subcutaneous tissue|to skin and deeper tissues|to the skin and tract|to the puncture site|at the puncture site|subcutaneously infiltrated|infiltrated|infiltration|local infiltration|local anaesthetic|local anesthetic|to skin|to the skin',
    'local infiltration',
  ),
  ...route('po|oral|orally|by mouth', 'oral'),
  ...route('sc|subcut|subcutaneous|subcutaneously', 'subcutaneous'),
  ...route('im|intramuscular|intramuscularly', 'intramuscular'),
  ...purpose(
    'for prophylaxis|as prophylaxis|antibiotic prophylaxis|prophylactic|prophylactically',
    'prophylaxis',
  ),
  ...purpose('for premedication|as premedication|as premed|as a premed|premedication', 'premedication'),
  ...purpose('for sedation|as sedation|for conscious sedation|to sedate', 'sedation'),
  ...purpose('for analgesia|as analgesia|for pain|for pain relief|for the pain', 'analgesia'),
  ...purpose(
    'for local anaesthesia|for local anesthesia|as local anaesthetic|as local anesthetic|as local anaesthesia|as local anesthesia|for the local',
    'local anaesthesia',
  ),
  ...purpose('for anticoagulation|as anticoagulation|to anticoagulate', 'anticoagulation'),
  ...purpose('for reversal|as reversal|to reverse', 'reversal'),
  ...purpose('for spasm|against spasm|for vasospasm', 'spasm'),
  ...purpose('for vasodilatation|for vasodilation|as vasodilator|as a vasodilator', 'vasodilatation'),
  ...purpose('for haemostasis|for hemostasis', 'haemostasis'),
  ...purpose('for thrombolysis|as lysis|for lysis', 'thrombolysis'),
  ...purpose('for nausea|against nausea|for sickness|as antiemetic|as an antiemetic', 'nausea'),
  ...purpose('for allergic reaction|for the allergic reaction|for the reaction', 'allergic reaction'),
  ...guidance(
    'ultrasound|us|usguided|ultrasoundguided|with the ultrasound|on the ultrasound|under the ultrasound|sono|sonography|with sono|under sono|under sonographic guidance|under ultrasound control|under us control|ultrasound control|on ultrasound|on us|by ultrasound|with us|using ultrasound|via ultrasound|sonographic guidance|ultrasound guided|us guided|ultrasound guidance|under ultrasound|under ultrasound guidance|under us|with ultrasound|' +
      'us guidance|under us guidance',
    'ultrasound',
  ),
  ...guidance(
    'ct|ctguided|ct guided|with the ct|under ct control|ct control|ct fluoroscopy|under ct fluoroscopy|on ct|by ct|using ct|cone beam guidance|under ct|ct guidance|under ct guidance|with ct',
    'computed tomography',
  ),
  ...guidance(
    'fluoro|on screening|with screening|under xray|fluoroguided|under fluoroscopy control|on fluoroscopy|with fluoroscopy|by fluoroscopy|under the image intensifier|on fluoro|with fluoro|under fluoro|under fluoroscopy|fluoroscopy|fluoroscopic guidance|under screening|under fluoroscopic guidance',
    'fluoroscopy',
  ),
  ...all(
    'external drainage|internal drainage|a drainage bag|the bag|free|free drainage|free drainage into a bag|free drainage into bag|free drainage to a bag|gravity drainage|gravity|bag|a bag|' +
      'drainage bag|leg bag|underwater seal|suction|low suction|wall suction|bag drainage|free flow into a bag|bile bag|urine bag',
    { role: 'setting' },
  ),
  ...all(
    'fixation device|plaster|tape|skin glue|butterfly stitch|a suture|silk|nylon|prolene|adhesive fixation device|adhesive fixation|adhesive device|sutures|stitch|a stitch|silk suture|skin suture|dressing|adhesive dressing',
    { role: 'fixing' },
  ),
  ...all('core|cores|pass|passes|biopsy|biopsies|specimen|specimens|sample|samples', { role: 'specimen' }),
  ...all('pressure|pressures|gradient|mean|mean pressure|systolic', { role: 'reading' }),
  ...all(
    'free flow|good flow|good blood return|blood return|flashback|good flashback|brisk flow|good position|satisfactory position|good result|waist gone|no waist|well positioned|' +
      'good opacification|position confirmed|position checked|confirmed|no extravasation|no leak|no residual stenosis|no residual|no bleeding|no pneumothorax|no complication|no complications|' +
      'no immediate complication|no free fluid|good backflow|good backbleed|aspirates and flushes well|aspirates and flushes|flushes and aspirates|aspirates|flushes|flushes well|aspirates well|flushes freely|aspirates freely|flushes easily',
    { role: 'seen' },
  ),
];
