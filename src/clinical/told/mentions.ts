import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { convert, type Quantity } from '../../record/quantity.js';
import type { CaseEvent, CaseRecord } from '../../record/schema/record.js';
import { unitOfCode } from '../../record/units.js';
import { wordsOf } from '../../trade/words.js';
import type { Written } from './beside.js';
import { agrees, type Figure, figuresIn } from './figure.js';
import { clausesOf } from './texts.js';

/** A size or volume, by the words that say of what. */
interface Mention {
  readonly path: string;
  readonly what: string;
  readonly figure: Figure;
  readonly words: ReadonlySet<string>;
  /** The words of the thing itself: 'aneurysm' in 'an aneurysm of the renal artery'. */
  readonly head: readonly string[];
  readonly early: boolean;
  readonly field: boolean;
}

/** Words that stand beside any thing: they tell two things apart and never name one. */
const apart = new Set(
  wordsOf(
    'left right both upper lower middle mid superior inferior anterior posterior lateral medial proximal distal common ' +
      'internal external deep superficial main first second third fourth fifth medium-sized central peripheral smaller larger largest ' +
      'wall neck top bottom head body tail pole lobe segment half side end tip branch dome',
  ),
);
const generic = new Set([
  ...apart,
  ...wordsOf(
    'artery arteries vein veins vessel vessels duct organ area region zone site length diameter size width depth with wide long thick deep ' +
      'large small huge tiny big rounded round oval irregular regular dilated narrow narrowed enlarged swollen one two three four single ' +
      'about around measured measuring measures measure of is was in on at the a an it its which that ct mri ultrasound scan film seen shown ' +
      'water air saline fluid contrast blood filled solid soft clear enhancing man woman boy girl skin belly abdomen chest leg arm',
  ),
]);

/** What something came to, was made to, or is away from: no size of its own. */
const other =
  /\b(?:from|away|beyond|beside|above|below|margin|rim|gap|distance|dilated to|stented|opened|expanded|cut|grown|grew|by|shrunk|shrank|shrink|residual|remaining|left over|after|before|now|was|initially|final|each|smallest|others?|another|aspirated|drained|injected|moved|throw|core|pass|thrombus|flush\w*|per|zone|between|cement|glue|foam|alcohol|ethanol|gel)\b/i;
const deviceWords =
  /\b(?:sheath|catheter|wire|guidewire|needle|stent|coils?|plug|balloon|drain|tube|filter|particles?|PICC|line|port|device|shunt|bottle|syringe|tract|cannula|band|cuff|snare|probe|antenna|button)\b/i;
const link =
  /(?:\s+(?:of|is|measures|measuring|measured|at|about|around|nearly|with a diameter of))*\s*:?\s*$/i;
const breaks = /[,;:()]|\b(?:with|without|from|to|by|which|that|and|over|at|near|fed by|supplied|in a)\b/i;

const sized = new Set(['length', 'volume']);

/** The words just before and after a figure that say of what it is. */
function phraseOf(before: string, after: string): string {
  const head = before.replace(link, '').split(breaks).at(-1) ?? '';
  const tail = after.replace(/^\s*(?:in diameter|in length|long|wide|thick|across|deep)\b/i, '');
  const linked = /\b(?:of|is|measures|measuring|measured)\s*(?:about|around|nearly)?\s*$|:\s*$/i.test(before);
  // '26 mm tumour of the lower pole' names it behind; 'a node of 24 mm at level III' before.
  return linked ? head : `${head} ${/^\s*[,;(]/.test(tail) ? '' : (tail.split(breaks)[0] ?? '')}`;
}

function ofTexts(record: CaseRecord, written: readonly Written[]): Mention[] {
  return written.flatMap(({ path, text, about, early }) => {
    if (/^(?:advice|aftercare|left)/.test(path)) return [];
    return clausesOf(text.slice(0, 2000)).flatMap(clause =>
      figuresIn(clause).flatMap((figure): Mention[] => {
        if (!sized.has(unitOfCode(figure.quantity.code)?.dimension ?? '')) return [];
        const before = clause.slice(0, figure.index);
        const after = clause.slice(figure.index + figure.length);
        const phrase = phraseOf(before, after);
        const around = `${before.split(/[,;]/).at(-1) ?? ''} ${after.split(/[,;]/)[0] ?? ''}`;
        if (other.test(phrase) || other.test(around.slice(-60)) || deviceWords.test(phrase)) return [];
        const own = wordsOf(phrase);
        const target = about === undefined ? undefined : record.targets?.[about];
        const named = target ? wordsOf(target.what.text) : [];
        // 'Trunk of 3 mm' in a line about a target is that trunk.
        const words =
          own.some(word => named.includes(word)) &&
          !own.some(word => !generic.has(word) && !named.includes(word))
            ? [...own, ...named.filter(word => !apart.has(word) || !own.some(one => apart.has(one)))]
            : own;
        return [
          {
            path,
            what: clause.trim(),
            figure,
            words: new Set(words),
            head: headOf(phrase),
            early,
            field: false,
          },
        ];
      }),
    );
  });
}

const headOf = (phrase: string) => wordsOf(phrase.split(/\bof\b/i)[0] ?? '').filter(word => !apart.has(word));

const asFigure = (quantity: Quantity): Figure => ({ quantity, index: 0, length: 0, near: false });

function ofTargets(record: CaseRecord): Mention[] {
  return Object.entries(record.targets ?? {}).flatMap(([key, target]) => {
    const what = target.what.text;
    // What lies between two vessels is neither of them.
    const head = what.split(/\b(?:between|from|to|through|with|after|beside|near|above|below)\b/i)[0] ?? what;
    const side = target.side === 'midline' ? '' : (target.side ?? '');
    const own = wordsOf(`${side} ${head}`);
    const whole = [...own, ...wordsOf(target.lesion?.text ?? '')];
    const sizes = [
      // The diameter is that of the vessel, the length that of what is wrong with it.
      ['diameter', target.diameter, own],
      ['length', target.length, whole],
      ...(target.measures ?? []).map(({ before }, i) => [`measures[${i}].before`, before, whole] as const),
    ] as const;
    return sizes.flatMap(([field, quantity, words]): Mention[] =>
      quantity
        ? [
            {
              path: `targets.${key}.${field}`,
              what,
              figure: asFigure(quantity),
              words: new Set(words),
              head: words,
              early: false,
              field: true,
            },
          ]
        : [],
    );
  });
}

const specific = ({ words }: Mention) =>
  [...words].filter(word => !generic.has(word) && !/^[\d.]/.test(word));

/** Whether two tell of the same thing: all that names the one names the other, and nothing tells them apart. */
function same(a: Mention, b: Mention): boolean {
  // The aneurysm of an artery is not the artery.
  const [text, field] = a.field ? [b, a] : [a, b];
  if (field.field && text.head.length > 0 && !text.head.some(word => field.words.has(word))) return false;
  const [one, two] = [specific(a), specific(b)];
  const [few, many] = one.length <= two.length ? [one, two] : [two, one];
  if (few.length === 0) return false;
  const shared = few.filter(word => many.includes(word));
  if (shared.length < few.length && shared.length < 2) return false;
  const told = [a, b].map(({ words }) => [...words].filter(word => apart.has(word)));
  const [mine = [], yours = []] = told;
  return (
    mine.length === 0 ||
    yours.length === 0 ||
    (mine.some(word => yours.includes(word)) && !opposed(mine, yours))
  );
}

const opposites: readonly (readonly [string, string])[] = [
  ['left', 'right'],
  ['upper', 'lower'],
  ['proximal', 'distal'],
  ['internal', 'external'],
  ['anterior', 'posterior'],
  ['first', 'second'],
];
const opposed = (a: readonly string[], b: readonly string[]) =>
  opposites.some(
    ([x, y]) =>
      (a.includes(x) && !a.includes(y) && b.includes(y) && !b.includes(x)) ||
      (a.includes(y) && !a.includes(x) && b.includes(x) && !b.includes(y)),
  );

/** Of two days a thing may differ a little: half as much again, or the same digits in another order, is another figure. */
function differs(a: Mention, b: Mention): boolean | undefined {
  const alike = agrees(a.figure, b.figure.quantity);
  if (alike === undefined) return undefined;
  if (alike || agrees(b.figure, a.figure.quantity)) return false;
  if (a.early === b.early) return true;
  const own = convert(b.figure.quantity, a.figure.quantity.code);
  const told = new Decimal(a.figure.quantity.value);
  if (!own || own.lte(0) || told.lte(0)) return false;
  const ratio = told.gt(own) ? told.div(own) : own.div(told);
  return ratio.gte('1.45');
}

/** Sizes and volumes of one thing that two places tell otherwise. */
export function checkMentions(record: CaseRecord, written: readonly Written[]): Finding[] {
  const told = ofTexts(record, written);
  const fields = ofTargets(record);
  return [...told.flatMap(one => ofText(record, one, told, fields)), ...ofFields(told, fields)];
}

const asFinding = (one: Mention, other: Mention): Finding =>
  finding('clinical.measurement-differs', one.path, {
    what: one.field ? one.what : message('measure.told', { text: one.what }),
    value: { quantity: one.figure.quantity },
    other: { quantity: other.figure.quantity },
    place: other.path,
  });

const treating: ReadonlySet<CaseEvent['do']> = new Set([
  'inflate',
  'deploy',
  'ablate',
  'aspirate',
  'retrieve',
  'release',
]);

/** Two events that tell of what was before and after a treatment. */
function treatedBetween({ events = [] }: CaseRecord, one: string, two: string): boolean {
  const [a, b] = [one, two].map(path => /^events\[(\d+)\]/.exec(path)?.[1]).map(Number);
  if (a === undefined || b === undefined || Number.isNaN(a + b)) return false;
  return events.slice(Math.min(a, b), Math.max(a, b)).some(event => treating.has(event.do));
}

function ofText(
  record: CaseRecord,
  one: Mention,
  told: readonly Mention[],
  fields: readonly Mention[],
): Finding[] {
  const others = [...fields, ...told].filter(
    two => two.path !== one.path && same(one, two) && !treatedBetween(record, one.path, two.path),
  );
  const verdicts = others.flatMap(two => {
    const apart = differs(one, two);
    return apart === undefined ? [] : [{ two, apart }];
  });
  const [first] = verdicts;
  if (!first || verdicts.some(verdict => !verdict.apart)) return [];
  // Several figures of one text beside one name are of several things.
  if (told.filter(two => two.path === one.path && same(one, two)).length > 1) return [];
  // Of two texts alone the later is told of.
  const later = !first.two.field && verdicts.length === 1 && one.early && !first.two.early;
  return later ? [] : [asFinding(one, first.two)];
}

/** The sizes of a target, where every text of the same thing has another. */
function ofFields(told: readonly Mention[], fields: readonly Mention[]): Finding[] {
  const keys = [...new Set(fields.map(({ path }) => path.split('.')[1]))];
  return keys.flatMap(key => {
    const own = fields.filter(({ path }) => path.split('.')[1] === key);
    const [field] = own;
    if (!field) return [];
    const texts = told.filter(text => same(text, field));
    const verdicts = texts.flatMap(text => own.map(one => differs(text, one)));
    const [first] = texts;
    return first && texts.length > 1 && verdicts.every(apart => apart === true)
      ? [asFinding(field, first)]
      : [];
  });
}
