import { listOf } from '../../../trade/names.js';
import type { Entry } from './entry.js';

const all = (words: string, entry: Entry): [string, Entry][] => listOf(words).map(word => [word, entry]);

/** What is said beside what is done. Common practice, no source. */
export const talk: readonly (readonly [string, Entry])[] = [
  ...all(
    "checked|tested|held|held for|held there|kept up|left up|lots of|plenty of|a lot of|lots|heaps of|bit of|a bit of|well|um|er|uh|erm|hmm|ah|oh|so yes|so i've just|in the end|to begin with|to start with|for now|for the moment|for the time being|with no trouble|without fuss|without a fuss|with no fuss|without problems|without incident|without complication|without complications|without resistance|without any resistance|with no resistance|without any problem|no resistance|dressed|dressing applied|dressing on|covered|second time of asking|at the second time of asking|note that|as per protocol|per protocol|by hand|by me|by operator|by the operator|here|already now|first off|quite easily|very easily|very nicely|very gently|a little|a little further|further in|a bit further|a touch further|a few centimetres|a couple of centimetres|a couple of cm|couple of cm|under continuous screening|without kinking|in two planes|lengthwise|fresh|freshly|please note|moving on|onwards|voila|done and dusted|end of|in sequence|one after the other|one after another|in turn|respectively|simultaneously|in tandem|please|thank you|right then|right so|okay so|ok so|alright|all right|lovely|perfect|great|nicely|cheers|sure|yes|yeah|yep|now then|" +
      "we've|i've|he's|she's|we have|i'm|we're|i am|we are|that's|it's|you're|i'd|just|still|already|finally|eventually|" +
      'this time|first time|at last|at once|straight away|straight in|without trouble|without difficulty|without any difficulty|without a problem|no problem|no problems|no trouble|no drama|no fuss|' +
      'on the first go|on the second go|on the third go|on the first attempt|on the second attempt|on the third attempt|at the first attempt|at the second attempt|' +
      'at the third attempt|on the first pass|on the second pass|on the third pass|second go|second time|first go|third go|third time|on the first try|on the second try|at the second go|at the third go|with the second go|on second attempt|on first attempt|' +
      'as well|too|also|with care|with a bit of a push|with a bit of work|with a little work|with some work|with some effort|with a bit of effort|under tension|under direct vision|as planned|as usual|for good measure|a few minutes|' +
      'dissected free|dissected out|freed up|freed|mobilised|mobilized|under local|under screening control|screening|back table|on the table|' +
      'for cytology|for histology|for microbiology|for culture|for cultures|for mcs|for biochemistry|for analysis|for the lab|for pathology|for amylase|for culture and sensitivity|to the lab|' +
      "and done|that's it|all done|at the same time|one at a time|all in one go|in one go|wire remains|under control|of course|after all|only|simply|quickly|quick|a touch|a bit|slightly|yet|afresh|once more|once again|very|quite",
    { role: 'filler' },
  ),
  ...all(
    'staying as it is|stays as it is|left as it was|stays|stayed|stays in|stay|staying|stays put|staying in|remains|remained|remains in|remains in place|stays in place|left in place|left in situ|left where it is|left where it was|left there|left alone|' +
      'left in|left indwelling|in situ|left as is|left in position|left as it is|kept|kept in|kept in place|leaving|leave|still in|still in place|not touched|untouched|where it is|where it was|where they are',
    { role: 'stays' },
  ),
  ...all(
    'loaded|opened up|prepped|got ready|from the other room|from the shelf|off the shelf|from the cupboard|from the store|from stock|from the trolley|from next door|from the other lab|from theatre|from the cabinet|from the stock room|from the store room|from upstairs',
    { role: 'fetched' },
  ),
  ...all(
    'on the shelf|in stock|in the cupboard|available|on the trolley|in the room|in the store|out of stock|left on the shelf|to be had|in the department|in the cabinet',
    { role: 'stock' },
  ),
  ...all(
    'external bolster|external plate|external disc|external fixator|external flange|bolster|skin disc|at the skin|at skin|at skin level|at the skin mark|to the skin mark|at the skin level|at the flange|at the hub|at the nostril|at the nose',
    { role: 'atSkin' },
  ),
  ...all('everything|all of it|the lot|all of them|both of them|them all', { role: 'everything' }),
];

/** Words of what was seen or felt, which are no act. Common practice, no source. */
export const findingWords: ReadonlySet<string> = new Set(
  (
    'fill fills hold holdup mid ok okay fine ' +
    'swinging bubbling swings bubbles running runs dripping trickling complete partial resolved resolves resolving persists persisting persistent recoil recoils recoiled still some mild moderate severe tight long short diffuse focal widely fully incompletely slight slightly small large tiny big thick thin dark red brown yellow green pale straw coloured colored foul offensive creamy haemorrhagic serous blocked patent brisk prompt adequate inadequate nondiagnostic diagnostic fragmented whole solid firm soft hard calcified mobile tilted tilt snug shut bigger worse same remaining remains trace rapid antegrade retrograde delayed opacified filling defect defects stained staining pooling layering contrast intragastric intraluminal extraluminal intravascular subintimal true lumen nothing accounted degrees swollen superselective selective early late arterial venous portal phase dry clear good better best fine nice brisk free freely patent open opens opened opening closed shut flow flows flowing flowed slow sluggish curl curled ' +
    'waist holdup held hold leak leaks leaking bleed bleeding bleeds bleeder blush oozing ooze spasm dissection dissected perforation haematoma hematoma ' +
    'pneumothorax extravasation residual stenosis narrowing recoil filling fills filled opacified opacifies opacification runoff preserved ' +
    'stasis occluded occlusion position positioned sitting sits sit sat looks look looking low high deep apposed apposition expanded expansion drains draining ' +
    'drained drainage empty collapsed smaller snug tight loose wall result happy stable unchanged normal satisfactory excellent perfect gone vanished resolved improved improvement ' +
    'visible seen visualised visualized showing shows shown confirms confirmed confirming demonstrated pulsatile pulse pulses palpable thrill bruit backflow backbleed ' +
    'bile bilious urine pus blood bloody clot clots thrombus debris fluid turbid cloudy stones stone fragments sludge material sample adequate ' +
    'pain painful sore comfortable uncomfortable settled tolerated complication complications problem trouble help luck difference change ' +
    'resistance straight kink kinks kinked cracked intact tip end ends marker markers pigtail loop formed forms round oval angle reflux refluxing emptying ' +
    'return returned returning back aspirates flushes well nothing leftover contained covered trapped caught wedged engaged wobbly crossing ' +
    'anastomosis branches branch vessel duct ducts cavity pelvis collection calyx system bubble bubbles gas air cardiac rhythm saturations pressure sats ectopics'
  ).split(' '),
);

/** Participles and the like that an unknown act could hide behind. */
export const looksLikeAct = (word: string): boolean => /(?:ed|ing|en)$/i.test(word) && word.length > 4;
