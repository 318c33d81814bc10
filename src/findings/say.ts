import { type Language, languageData, textsOf, type WordKey } from './languages.js';
import type { Param } from './message.js';
import { namer } from './names.js';
import { en } from './words/en/words.js';

/** Keys that come in `.one` and `.other`. */
export type PluralKey = WordKey extends infer K ? (K extends `${infer Base}.one` ? Base : never) : never;

type Named = Extract<Param, { readonly device: unknown }>;
type Word = Extract<Param, { readonly named: unknown }>;
type Amount = Extract<Param, { readonly quantity: unknown }>['quantity'];
type When = Extract<Param, { readonly when: unknown }>['when'];
type PointInTime = Extract<Param, { readonly moment: unknown }>['moment'];

/** A size as recorded: a diameter, or a span of them, and a length. */
interface Span {
  readonly diameter: Amount;
  readonly upTo?: Amount | undefined;
  readonly length?: Amount | undefined;
}

/** One language: its words, and how it writes figures and dates. */
export interface Lexicon {
  readonly language: Language;
  /** The word or sentence of `key`, its `{places}` filled from `params`. */
  say(key: WordKey, params?: Readonly<Record<string, Param>>): string;
  /** A message, or whatever else can fill the place of one. */
  text(param: Param): string;
  /** The form of `key` for the amount `n` (decimal text), which fills `{n}` as `shown`. */
  plural(key: PluralKey, n: string, shown?: string): string;
  /** Decimal text in the language's own form; no digit is changed. */
  decimal(value: string): string;
  /** `7 Fr`, `< 5 mL`, `6 weeks`. */
  quantity(amount: Amount): string;
  /** `8.5 Fr × 35 cm`, `500 µm to 700 µm`. */
  size(size: Span): string;
  /** A kind of device by its row in the table of kinds; as written where the language has no name for it. */
  kind(text: string, row?: string): string;
  /** `8.5 Fr stent`. */
  sized(size: string, name: string): string;
  /** `a, b and c`. */
  list(items: readonly string[]): string;
  /** A FHIR date of any precision, or the date part of a dateTime, a day with its weekday. A partial date stays partial. */
  date(iso: string): string;
  /** The same without the weekday, for dates that name a person and not a day to plan with. */
  plainDate(iso: string): string;
  /** With the date, whatever the day; with the offset where it differs from that of the case. */
  fullMoment(moment: PointInTime): string;
  when(when: When): string;
}

/** Spans of time are written out as words; every other unit keeps its sign. */
const SPANS: Readonly<Record<string, PluralKey>> = {
  s: 'unit.s',
  min: 'unit.min',
  h: 'unit.h',
  d: 'unit.d',
  wk: 'unit.wk',
  mo: 'unit.mo',
  a: 'unit.a',
};

/** True for a key of the words; templates name keys as text. */
export function isWordKey(key: string): key is WordKey {
  return Object.hasOwn(en, key);
}

const lexicons = new Map<string, Lexicon>();

/**
 * The lexicon of one language, made once: formatters are dear.
 * @param offset for a report: that of most times of the case (`+01:00`), empty where it has none. Moments under another
 * one are written with theirs, and dates as people read them; without it English repeats them as the record has them.
 */
export function lexicon(language: Language, offset?: string): Lexicon {
  // No offset and an empty one are two: the second is for a report of a case without a time.
  const name = JSON.stringify([language, offset]);
  const known = lexicons.get(name) ?? makeLexicon(language, offset);
  lexicons.set(name, known);
  return known;
}

function makeLexicon(language: Language, offset: string | undefined): Lexicon {
  const texts = textsOf(language);
  const rules = new Intl.PluralRules(language);
  const separator =
    new Intl.NumberFormat(language).formatToParts(1.5).find(part => part.type === 'decimal')?.value ?? '.';
  const style = { timeZone: 'UTC', calendar: 'gregory', numberingSystem: 'latn' } as const;
  const day = new Intl.DateTimeFormat(language, { ...style, day: 'numeric', month: 'long', year: 'numeric' });
  const weekday = new Intl.DateTimeFormat(language, { ...style, weekday: 'long' });
  const month = new Intl.DateTimeFormat(language, { ...style, month: 'long', year: 'numeric' });
  // The record is written in English: messages repeat its words, dates and units in English as they stand.
  const asRecorded = language === 'en-GB' || language === 'en-US';
  const forReaders = offset !== undefined;

  const fill = (key: string, params: Readonly<Record<string, Param>>) =>
    (texts[key] ?? key).replace(/\{(\w+)(?::(\w+))?\}/g, (place, name: string, form?: string) => {
      const param = Object.hasOwn(params, name) ? params[name] : undefined;
      return param === undefined ? place : form === undefined ? text(param) : formed(param, form);
    });
  const decimal = (value: string) => value.replace('.', separator);
  const plural: Lexicon['plural'] = (key, n, shown = n) =>
    fill(rules.select(Number(n)) === 'one' ? `${key}.one` : `${key}.other`, { n: shown });
  const plain = ({ value, comparator, unit }: Amount, number: (value: string) => string, gap: string) =>
    `${comparator ? `${comparator} ` : ''}${number(value)}${unit === '' ? '' : gap}${unit}`;
  const quantity = (amount: Amount): string => {
    const span = SPANS[amount.code];
    if (span)
      return `${amount.comparator ? `${amount.comparator} ` : ''}${plural(span, amount.value, decimal(amount.value))}`;
    // A unit may have a number itself: mL/min/1.73 m².
    const unit = amount.unit.replace(/\d\.\d/, decimal);
    return plain({ ...amount, unit }, decimal, unit === '%' ? '' : ' ');
  };
  const size: Lexicon['size'] = ({ diameter, upTo, length }) => {
    const across = upTo
      ? fill('range', { from: quantity(diameter), to: quantity(upTo) })
      : quantity(diameter);
    return length ? `${across} × ${quantity(length)}` : across;
  };
  const lists = new Intl.ListFormat(language, { type: 'conjunction' });
  const list: Lexicon['list'] = items => lists.format(items);
  const { bare, inForm } = namer(languageData(language));
  const formed = (param: Param, form: string): string =>
    typeof param === 'object' && 'and' in param
      ? list(param.and.map(one => formed(one, form)))
      : inForm(text(param), form);
  const kind: Lexicon['kind'] = (written, row = written.toLowerCase()) => bare('devices', row) ?? written;
  /** A word of the record with a capital at its head where the record has one. */
  const word = ({ named: of, text: written, row, other, side }: Word): string => {
    const whole = bare(of, written.toLowerCase());
    const own = whole ?? bare(of, row ?? '');
    if (own === undefined) return written;
    const said = /^\p{Lu}/u.test(written) ? own.charAt(0).toUpperCase() + own.slice(1) : own;
    if (side !== undefined && whole === undefined)
      return fill('name.side', { what: said, side: fill(`side.${side}`, {}) });
    return other && said.toLowerCase() !== written.toLowerCase()
      ? fill('name.written', { name: said, written })
      : said;
  };
  const sized: Lexicon['sized'] = (size, name) => fill('name.sized', { size, kind: name });
  const figures = (name: string) => name.replace(/\b\d+\.\d+(?= (?:Fr|G|mm|cm|µm|in|m)\b)/gu, decimal);
  /** `8.5 Fr drainage catheter, 25 cm`: the kind by its row, and the size where the language puts it. */
  const named = ({ device, kind, row }: Named): string => {
    const own = row === undefined ? undefined : bare('devices', row);
    const at = own === undefined || kind === undefined ? -1 : device.indexOf(kind);
    if (own === undefined || kind === undefined || at < 0) return figures(device);
    const size = device.slice(0, at).trim();
    return `${size === '' ? own : sized(figures(size), own)}${figures(device.slice(at + kind.length))}`;
  };
  const dated = (iso: string, ofDay: (at: number) => string): string => {
    const parts = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?/.exec(iso);
    if (!parts) return iso;
    const [, y = '', m, d] = parts;
    // Calendar numbers only: the instant is built and read back in UTC, so no zone can move the day.
    const at = Date.UTC(Number(y), Number(m ?? '1') - 1, Number(d ?? '1'));
    return m === undefined ? y : d === undefined ? month.format(at) : ofDay(at);
  };
  const plainDate = (iso: string) => dated(iso, at => day.format(at));
  const date = (iso: string) =>
    dated(iso, at => fill('date.weekday', { weekday: weekday.format(at), date: day.format(at) }));
  const fullMoment = (moment: PointInTime): string => {
    const time = fill('date.at', { date: date(moment.date), clock: moment.clock });
    const own = offsetOf(moment);
    return !offset || own === offset ? time : fill('date.offset', { time, offset: own });
  };
  const when = ({ iso, moment }: When) => (moment ? fullMoment(moment) : date(iso));
  const text = (param: Param): string => {
    if (typeof param === 'string') return param;
    if ('key' in param) return fill(param.key, param.params);
    if ('list' in param) return param.list.map(text).join(', ');
    if ('sentence' in param) {
      const said = text(param.sentence);
      return `${said.charAt(0).toUpperCase()}${said.slice(1)}`;
    }
    if ('and' in param) return list(param.and.map(text));
    if ('named' in param) return word(param);
    if ('device' in param) return named(param);
    if ('number' in param) return decimal(param.number);
    if (!asRecorded) {
      if ('quantity' in param) return quantity(param.quantity);
      if ('when' in param) return when(param.when);
      if ('moment' in param) return fullMoment(param.moment);
      if ('day' in param) return date(param.day);
      return texts[`${param.term}.${param.value}`] ?? param.value;
    }
    if ('quantity' in param)
      return plain(param.quantity, String, param.quantity.unit === '%' && !param.spaced ? '' : ' ');
    if ('when' in param) return forReaders ? when(param.when) : param.when.text;
    if ('moment' in param)
      return forReaders ? fullMoment(param.moment) : `${param.moment.date} ${param.moment.clock}`;
    if ('day' in param) return forReaders ? date(param.day) : param.day;
    return param.value;
  };
  const say: Lexicon['say'] = (key, params = {}) => fill(key, params);
  return {
    ...{ language, say, text, plural, decimal, quantity, size, kind, sized, list },
    ...{ date, plainDate, fullMoment, when },
  };
}

/** `+01:00`; `Z` is `+00:00`. */
export function offsetOf({ iso }: PointInTime): string {
  const offset = /(Z|[+-]\d{2}:\d{2})$/.exec(iso)?.[1] ?? '';
  return offset === 'Z' ? '+00:00' : offset;
}

/** Says a message in a language; in English where none is named. */
export function say(message: Param, language: Language = 'en-GB'): string {
  return lexicon(language).text(message);
}
