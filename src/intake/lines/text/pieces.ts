import type { ActionDict, Grammar, Node, Semantics } from 'ohm-js';
import { Decimal } from '../../../record/decimal.js';
import { readQuantity } from '../../../record/quantity.js';
import type { Dimension } from '../../../record/units.js';
import { unitNamed } from '../../../record/units.js';
import { lineGrammar, numberWords, unitOfLine } from './grammar.js';

interface Placed {
  /** Place in the line, from 0. */
  readonly start: number;
  readonly end: number;
  /** As it stands in the line. */
  readonly text: string;
}

/** What a line is made of. Amounts are written as a record writes them: `8 atm`, `0.035 in`. */
export type Piece = Placed &
  (
    | { readonly is: 'time'; readonly at: string }
    | { readonly is: 'wire'; readonly amount: string }
    | {
        readonly is: 'pair';
        readonly first: string;
        readonly second: string;
        readonly unit?: string;
        readonly lengthUnit?: string;
      }
    | { readonly is: 'span'; readonly amount: string }
    | {
        readonly is: 'amount';
        readonly amount: string;
        readonly value: string;
        readonly unit: string;
        readonly dimension: Dimension;
      }
    | { readonly is: 'number'; readonly value: string }
    | { readonly is: 'word'; readonly word: string }
    | { readonly is: 'mark'; readonly mark: string }
  );

const two = (value: number | string) => String(value).padStart(2, '0');

/** A clock time as a record has it; undefined where no clock shows it. */
function clockOf(said: string): string | undefined {
  const half = /\s*([ap])m$/i.exec(said)?.[1]?.toLowerCase();
  const text = said.replace(/\s*[ap]m$/i, '');
  const typed = /^(\d{1,2})[:.h](\d{2})(?::(\d{2}))?$/i.exec(text) ?? /^(\d{2})(\d{2})h?$/i.exec(text);
  if (typed) {
    const [, shown = '', minute = '', second] = typed;
    if (half !== undefined && (Number(shown) > 12 || Number(shown) < 1)) return undefined;
    const hour = half === undefined ? shown : String((Number(shown) % 12) + (half === 'p' ? 12 : 0));
    if (Number(hour) > 23 || Number(minute) > 59 || Number(second ?? 0) > 59) return undefined;
    return `${two(hour)}:${minute}${second === undefined ? '' : `:${second}`}`;
  }
  const [first = '', ...others] = splitSpoken(text);
  // `oh nine fourteen`
  const early = numberWords.get(first) === 0 && others.length > 1;
  const [hour = '', ...after] = early ? others : [first, ...others];
  // `twenty-three oh two`
  const late = hour === 'twenty' && after.length > 1 && (numberWords.get(after[0] ?? '') ?? 10) < 4;
  const rest = late && numberWords.get(after[0] ?? '') !== 0 ? after.slice(1) : after;
  const minute = rest.reduce((sum, word) => sum + (numberWords.get(word) ?? 0), 0);
  const hours =
    (numberWords.get(hour) ?? 24) + (rest.length < after.length ? (numberWords.get(after[0] ?? '') ?? 0) : 0);
  return hours === undefined || hours > 23 || minute > 59 || rest.length === 0
    ? undefined
    : `${two(hours)}:${two(minute)}`;
}

const splitSpoken = (text: string) => text.toLowerCase().split(/[\s-]+/);

/** `eight and a half` is 8.5, `3,000` is 3000, `.5` is 0.5. */
function numberOf(text: string): string {
  const plain = text.toLowerCase().trim();
  const half = /[\s-]+and a half$/.test(plain);
  const bare = plain.replace(/[\s-]+and a half$/, '');
  if (/^[\d.,]+$/.test(bare)) {
    const digits = bare
      .replace(/,/g, '')
      .replace(/^\./, '0.')
      .replace(/^0+(?=\d)/, '');
    return half ? `${digits}.5` : digits;
  }
  let total = 0;
  let run = 0;
  let decimals = '';
  let afterPoint = false;
  for (const word of splitSpoken(bare)) {
    if (word === 'and') continue;
    if (word === 'point') afterPoint = true;
    else if (afterPoint) decimals += numberWords.get(word) ?? 0;
    else if (word === 'hundred') run *= 100;
    else if (word === 'thousand') {
      total += run * 1000;
      run = 0;
    } else run += joinedNumber(word);
  }
  const whole = String(total + run);
  return half ? `${whole}.5` : decimals === '' ? whole : `${whole}.${decimals}`;
}

/** `thirtyfive` as one word, too. */
function joinedNumber(word: string): number {
  const known = numberWords.get(word);
  if (known !== undefined) return known;
  const ten = [...numberWords].find(([name, value]) => value >= 20 && word.startsWith(name));
  return ten ? ten[1] + (numberWords.get(word.slice(ten[0].length)) ?? 0) : 0;
}

/** `oh three five`, `035`, `.035`: inches. */
function wireOf(text: string): string {
  const digits = /\d/.test(text)
    ? (/(\d{2})(?!.*\d)/.exec(text)?.[1] ?? '')
    : splitSpoken(text)
        .slice(1, 3)
        .map(word => numberWords.get(word) ?? '')
        .join('');
  return `0.0${digits} in`;
}

const placed = (node: Node): Placed => ({
  start: node.source.startIdx,
  end: node.source.endIdx,
  text: node.sourceString,
});

const optionalUnit = (node: Node): string | undefined =>
  node.sourceString === '' ? undefined : unitOfLine(node.sourceString.replace(/^[\s-]+/, ''));

function amount(node: Node, value: string, unit: string): Piece {
  const dimension = unitNamed(unit)?.dimension ?? 'count';
  const text = `${value} ${unit}`;
  // One reader of quantities: what it does not take is no amount.
  return readQuantity(text, [dimension]).ok
    ? { ...placed(node), is: 'amount', amount: text, value, unit, dimension }
    : { ...placed(node), is: 'word', word: node.sourceString };
}

const time = (node: Node, clock: string): Piece => {
  const at = clockOf(clock);
  return at === undefined
    ? { ...placed(node), is: 'word', word: node.sourceString }
    : { ...placed(node), is: 'time', at };
};

const bareClock = (text: string) => text.replace(/^at\s+/i, '');

const actions: ActionDict<readonly Piece[]> = {
  line(_space, stamp, _after, pieces, _spaces) {
    return [...stamp.children, ...pieces.children].flatMap(child => child['pieces']() as readonly Piece[]);
  },
  stamp(_at, _space, clock, _end) {
    return [time(this, clock.sourceString)];
  },
  piece_time(_later) {
    return [time(this, bareClock(this.sourceString))];
  },
  piece_bare(number) {
    return [{ ...placed(this), is: 'number', value: numberOf(number.sourceString) }];
  },
  wire(_wire) {
    return [{ ...placed(this), is: 'wire', amount: wireOf(this.sourceString) }];
  },
  pair(first, _gap, unit, _g2, _by, _g3, second, _g4, lengthUnit) {
    const [own, other] = [optionalUnit(unit), optionalUnit(lengthUnit)];
    return [
      {
        ...placed(this),
        is: 'pair',
        first: numberOf(first.sourceString),
        second: numberOf(second.sourceString),
        ...(own !== undefined && { unit: own }),
        ...(other !== undefined && { lengthUnit: other }),
      },
    ];
  },
  span(first, _until, second, _gap, unit) {
    const said = `${numberOf(first.sourceString)}-${numberOf(second.sourceString)} ${unitOfLine(unit.sourceString)}`;
    return [{ ...placed(this), is: 'span', amount: said }];
  },
  amount_both(minutes, _gap, _minutes, _g2, _and, _g3, seconds, _g4, _seconds) {
    const total = new Decimal(numberOf(minutes.sourceString)).times(60).plus(numberOf(seconds.sourceString));
    return [amount(this, total.toString(), 's')];
  },
  amount_plain(number, _gap, unit) {
    return [amount(this, numberOf(number.sourceString), unitOfLine(unit.sourceString))];
  },
  amount_one(_a, _gap, unit, _and, half) {
    return [amount(this, half.sourceString === '' ? '1' : '1.5', unitOfLine(unit.sourceString))];
  },
  amount_half(_half, _gap, unit) {
    return [amount(this, '0.5', unitOfLine(unit.sourceString))];
  },
  word(_first, _rest) {
    return [{ ...placed(this), is: 'word', word: this.sourceString }];
  },
  mark(_) {
    return [{ ...placed(this), is: 'mark', mark: this.sourceString }];
  },
};

let made: { readonly lines: Grammar; readonly semantics: Semantics } | undefined;

function reader() {
  if (!made) {
    const lines = lineGrammar();
    made = { lines, semantics: lines.createSemantics().addOperation<readonly Piece[]>('pieces', actions) };
  }
  return made;
}

/** The pieces of one line, in its order. Every character but blanks is in one of them. */
export function piecesOf(line: string): readonly Piece[] {
  const { lines, semantics } = reader();
  const match = lines.match(line, 'line');
  return match.succeeded() ? (semantics(match)['pieces']() as readonly Piece[]) : [];
}
