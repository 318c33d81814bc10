import { remembered } from '../record/remembered.js';

/** Word pairs that people write as one word or two, and what they are compared as. */
const joined: readonly (readonly [string, string, string])[] = [
  ['guide', 'wire', 'guidewire'],
  ['stent', 'graft', 'stentgraft'],
  ['endo', 'graft', 'endograft'],
  ['peel', 'away', 'peelaway'],
  ['double', 'j', 'doublej'],
  ['j', 'j', 'doublej'],
  ['pig', 'tail', 'pigtail'],
  ['rapid', 'exchange', 'rapidexchange'],
  ['thin', 'wall', 'thinwall'],
  ['regular', 'wall', 'regularwall'],
  ['x', 'ray', 'xray'],
  ['bile', 'duct', 'biliary'],
  ['vena', 'cava', 'caval'],
  ['inferior', 'caval', 'caval'],
  ['co', 'axial', 'coaxial'],
  ['ultra', 'sound', 'ultrasound'],
  ['gall', 'bladder', 'gallbladder'],
  ['chest', 'wall', 'chestwall'],
  ['drug', 'coated', 'drugcoated'],
  ['drug', 'eluting', 'drugeluting'],
  ['hemo', 'dialysis', 'hemodialysis'],
  ['hemo', 'filtration', 'hemofiltration'],
];

/** Prefixes that belong to the word after them: 'pre-dialysis' is a word of its own and no dialysis. */
const prefixes = new Set(['micro', 'non', 'pre', 'post', 'anti', 'un', 'sub', 'trans', 'hemi', 'neo']);

/** Words that mean the same in every table, by the word that they are compared as. */
const same: Readonly<Record<string, string>> = {
  renal: 'kidney',
  hepatic: 'liver',
  splenic: 'spleen',
  pulmonary: 'lung',
  ureteral: 'ureter',
  ureteric: 'ureter',
  ureterostomy: 'ureterostomy',
  gastric: 'stomach',
  esophageal: 'esophagus',
  ivc: 'caval',
  jj: 'doublej',
  dj: 'doublej',
  walled: 'wall',
  arterial: 'artery',
  venous: 'vein',
  peelable: 'peelaway',
  splittable: 'peelaway',
  us: 'ultrasound',
  dilatation: 'dilation',
  dilated: 'dilation',
  tunnelised: 'tunneled',
  coated: 'coated',
};

/** Words that carry no meaning of their own in a name. */
const empty = new Set(['of', 'the', 'a', 'an', 'to', 'in', 'into', 'on']);

/** British to American, either way written is compared as one. */
function spelling(word: string): string {
  return word
    .replace(/ulae$/, 'ula')
    .replace(/ae|oe/g, 'e')
    .replace(/iz(e|ed|er|es|ing|ation)/g, 'is$1')
    .replace(/our$/, 'or')
    .replace(/tre$/, 'ter')
    .replace(/ll/g, 'l')
    .replace(/sulph/g, 'sulf')
    .replace(/dilatation/g, 'dilation');
}

function singular(word: string): string {
  if (word.length <= 3) return word;
  if (/[^aeiou]ies$/.test(word) && word.length > 4) return word.replace(/ies$/, 'y');
  if (/(?:os|es|ys)es$/.test(word)) return word.replace(/es$/, 'is');
  if (/(?:ch|sh|x|ss)es$/.test(word)) return word.replace(/es$/, '');
  return /(?:ss|us|is)$/.test(word) ? word : word.replace(/s$/, '');
}

/** Words of a text as they are compared: case, accents, hyphens, plurals and British or American spelling aside. */
export const wordsOf: (text: string) => readonly string[] = remembered(text => {
  const plain = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/['’]s\b/g, '')
    .split(/[^\p{L}\p{N}.%]+/u)
    .map(word => word.replace(/^\.+|\.+$/g, ''))
    .filter(word => word !== '' && !empty.has(word))
    .map(word => singular(spelling(word)));
  const out: string[] = [];
  for (const word of plain) {
    const last = out.at(-1);
    const pair = joined.find(([a, b]) => a === last && b === word);
    if (pair) out.splice(-1, 1, pair[2]);
    else if (last !== undefined && prefixes.has(last) && /^\p{L}{3,}/u.test(word))
      out.splice(-1, 1, last + word);
    else out.push(word);
    const now = out.at(-1) ?? '';
    const known = Object.hasOwn(same, now) ? (same[now] ?? now) : now;
    out.splice(-1, 1, known);
    const before = out.at(-2);
    const again = joined.find(([a, b]) => a === before && b === known);
    if (again) out.splice(-2, 2, again[2]);
  }
  return out;
});

const denials = new Set([
  'no',
  'not',
  'never',
  'without',
  'nil',
  'free',
  'denied',
  'excluded',
  'absent',
  'negative',
]);

/** True for words among which one says that something is not so. */
export const denies = (words: readonly string[]): boolean =>
  words.some(
    word => denials.has(word) || /^(?:non|un(?!der|til|it|ion|iform|iversit|ilateral|less)).+/.test(word),
  );
