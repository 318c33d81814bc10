import type { Finding } from '../../../findings/finding.js';
import { remembered, rememberedOf } from '../../../record/remembered.js';
import type { CaseRecord } from '../../../record/schema/record.js';
import { bodyPartsIn } from '../../../trade/body.js';
import { type Told, toldAfter, toldToReaders } from '../../texts.js';
import { everyText, textsBeside } from '../every-text.js';
import { differs } from './finding.js';
import type { Sided } from './sided.js';
import { namedSides, type Side } from './words.js';

/** A side and the words that follow it: 'left', 'chest drain'. */
interface Phrase {
  readonly side: Side;
  readonly words: readonly string[];
}

const sideAndWords = /(^|[^a-z-])(left|right)(?:-sided)? ([a-z][a-z-]*(?: [a-z][a-z-]*){0,3})/gi;
/** Words at which a name ends. */
const stop = new Set(
  'left right both is was are were be been stays stay stayed remains remain remained has have had can may must should will needs after until once when if while on of as or and but then that which with without for from to in into at by over under below above near beside across through via again every each today tomorrow also only within per before during dry clean daily closed open opened shut warm soft cold straight still flat puncture covered connected drains draining drained drain-free comes came out off up away alone behind place untouched broken removed the a an her his its their this there not no who where'.split(
    ' ',
  ),
);
/** Words that are no thing of their own: a name must not end with one, nor be one of these alone. */
const adjective = new Set(
  'upper lower middle mid common internal external superficial deep superior inferior anterior posterior lateral medial main distal proximal central chest abdominal pleural renal hepatic femoral iliac radial brachial carotid jugular subclavian pulmonary tibial popliteal side sides hand half one ones heart atrium ventricle atrial ventricular lobe lobes duct ducts bundle first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth small large big new old'.split(
    ' ',
  ),
);

/** Each once, however often a text repeats it. */
const phrasesIn: (text: string) => readonly Phrase[] = remembered(text => {
  const found = new Map<string, Phrase>();
  for (const [, , word = '', after = ''] of text.slice(0, 5000).matchAll(sideAndWords)) {
    const words = after.toLowerCase().split(' ');
    const end = words.findIndex(one => stop.has(one));
    const name = words.slice(0, end < 0 ? words.length : end);
    const side = word.toLowerCase() === 'left' ? 'left' : 'right';
    if (name.length > 0) found.set(`${side} ${name.join(' ')}`, { side, words: name });
  }
  return [...found.values()];
});

/** The shorter of two names, where the longer one begins with it and it names a thing. */
function shared(one: readonly string[], two: readonly string[]): readonly string[] | undefined {
  const [short, long] = one.length < two.length ? [one, two] : [two, one];
  return isThing(short) && short.every((word, i) => long[i] === word) ? short : undefined;
}

const isThing = (name: readonly string[]) => !adjective.has(name.at(-1) ?? '');
const other = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** What may well be on the other side. */
const aside =
  /\b(?:blood pressure|cuff|blood|samples?|cannula|drip|compar\w+|than|other|opposite|contralateral|lie|lies|lying|sleep|sit|sits|sitting|rest\w*|lean\w*|kneel\w*|turn\w*|roll\w*|stick|crutch\w*|cane|sling|shift\w*|old|earlier|previous\w*|former|history|scar|also|too|as well|second|another|next|later|staged|planned|session|treat\w*|unchanged|known|normal\w*|spared|no|not|without|none|never|in (?:19|20)\d\d|handed|shoulder tip|pacemaker|pulses?|pain\w*|ache\w*|sore|bruis\w*|weak\w*|numb\w*|us(?:e|ing)|lift\w*|carry\w*|writ\w*|bags?|weight|load|stand\w*|step|instead|rather|only|open|patent|intact|untouched)\b/i;

/** 'The plaster on the right buttock', where all the rest of the record knows a left buttock alone. */
export function nounSides(record: CaseRecord, places: readonly Sided[]): Finding[] {
  return [...toldToReaders(record), ...toldAfter(record)]
    .filter(({ path }) => path !== 'outcome.disposition')
    .flatMap(told => ofNoun(record, told, places).slice(0, 1));
}

interface Known extends Phrase {
  readonly path: string;
}

/** Everything with a side that a record names, in any of its texts. */
const allPhrases: (record: CaseRecord) => readonly Known[] = rememberedOf((record: CaseRecord) =>
  everyText(record).flatMap(({ path, text }) => phrasesIn(text).map(phrase => ({ ...phrase, path }))),
);

/** More phrases with a side than a text of a person has. */
const MOST = 20;

function ofNoun(record: CaseRecord, { path, text }: Told, places: readonly Sided[]): Finding[] {
  if (namedSides(text).size !== 1) return [];
  return clausesOf(text)
    .flatMap(clause => phrasesIn(clause).filter(({ words }) => !isForItself(clause, words)))
    .slice(0, MOST)
    .flatMap(({ side, words }) => {
      if (isThere(places, side, words)) return [];
      const known = allPhrases(record).flatMap(one => {
        const name = one.side === other(side) && one.path !== path ? shared(words, one.words) : undefined;
        return name ? [{ path: one.path, noun: name.at(-1) ?? '' }] : [];
      });
      const field = places.find(place => isOnly(place, other(side)) && hasName(place.text, words));
      const place = field?.path ?? known.find(one => structured.test(one.path))?.path;
      if (place === undefined && new Set(known.map(one => one.path)).size < 2) return [];
      const noun = known[0]?.noun ?? words[0] ?? '';
      if (textsBeside(record, path).some(one => mayMean(one, side, noun))) return [];
      return [differs(path, text, [side], place ?? known[0]?.path ?? '', [other(side)])];
    });
}

/** The other arm or leg may be meant for its own sake, unless it wears what the case left on it. */
const limb = /^(?:arms?|hands?|wrists?|legs?|foot|feet|upper arm|forearm|thigh|knee)$/;
const worn =
  /\b(?:plasters?|dressings?|stitch\w*|sutures?|bandages?|stockings?|swell\w*|wounds?|sites?|bands?|tape|glue|rais\w*|elevat\w*)\b/i;
const isForItself = (clause: string, words: readonly string[]) =>
  limb.test(words.join(' ')) && !worn.test(clause);

const clausesOf = (text: string) =>
  text
    .slice(0, 5000)
    .split(/[.;,]\s|;/)
    .filter(clause => !aside.test(clause));

/** Something of the same region on the side that is told of. */
function isThere(places: readonly Sided[], side: Side, words: readonly string[]): boolean {
  const regions = new Set(bodyPartsIn(words.join(' ')).map(({ region }) => region));
  return places.some(
    ({ sides, parts }) =>
      (sides.has(side) || sides.size === 0) && parts.some(({ region }) => regions.has(region)),
  );
}

const isOnly = ({ sides }: Sided, side: Side) => sides.size === 1 && sides.has(side);

/** Whether the text of a place names the thing, its side being in a field. */
const hasName = (text: string, words: readonly string[]): boolean =>
  isThing(words.slice(0, 1)) &&
  text
    .toLowerCase()
    .split(/[^a-z-]+/)
    .includes(words[0] ?? '');

/** Places that are filled in for their own sake, so that one of them is enough. */
const structured =
  /^(?:access\[\d+\]\.site|targets\.[^.]+\.what|left\[\d+\]\.site|devices\.[^.]+\.(?:kind|description)|events\[\d+\]\.into)(?:\.text)?$/;

const pair = /\b(?:two|each) ((?:[\w-]+ ){0,2}[\w-]+)/gi;

/** Whether a text speaks of that noun and of that side at all, or of two of them. */
function mayMean(text: string, side: Side, noun: string): boolean {
  const name = noun.replace(/s$/, '');
  const low = text.toLowerCase();
  if (!low.includes(name)) return false;
  return namedSides(text).has(side) || [...low.matchAll(pair)].some(([, words = '']) => words.includes(name));
}

/** A condition of the request on one side, and the same on the other in all that was seen before the case. */
export function conditionSides(record: CaseRecord, places: readonly Sided[]): Finding[] {
  const imaging = record.before?.imaging ?? '';
  const seen = clausesOf(imaging).flatMap(clause => phrasesIn(clause));
  return (record.indication.conditions ?? []).flatMap(({ text }, i) => {
    if (aside.test(text) || namedSides(text).size !== 1) return [];
    const differing = phrasesIn(text).some(
      ({ side, words }) =>
        !namedSides(imaging).has(side) &&
        !isThere(places, side, words) &&
        seen.some(one => one.side === other(side) && isSame(one.words, words, text, imaging)),
    );
    const [side] = namedSides(text);
    return differing && side
      ? [differs(`indication.conditions[${i}]`, text, [side], 'before.imaging', [other(side)])]
      : [];
  });
}

/** The same name of two words, or of one with another word of the condition beside it. */
function isSame(one: readonly string[], two: readonly string[], text: string, imaging: string): boolean {
  const short = shared(one, two);
  if (!short) return false;
  const rest = text.toLowerCase().match(/[a-z]{4,}/g) ?? [];
  return (
    short.length > 1 ||
    rest.some(word => !plain.has(word) && !short.includes(word) && imaging.toLowerCase().includes(word))
  );
}

const plain = new Set(['left', 'right', 'with', 'from', 'side', 'sided', 'after']);
