import { type Grammar, grammar } from 'ohm-js';
import { type Unit, unitNamed, units } from '../../../record/units.js';

/** What a line measures; other units of the record are no words of the operating room. */
const measured: readonly Unit['dimension'][] = [
  'length',
  'calibre',
  'volume',
  'dose',
  'mass',
  'activity',
  'pressure',
  'duration',
  'ratio',
  'flow',
];

/** Said or typed for a unit of the table. Common practice, no source. */
const saidUnits: Readonly<Record<string, string>> = {
  mikes: 'µg',
  mike: 'µg',
  mics: 'µg',
  mls: 'mL',
  ccs: 'mL',
  mil: 'mL',
  mils: 'mL',
  atms: 'atm',
  ats: 'atm',
  atmos: 'atm',
  bars: 'bar',
  fr: 'Fr',
  frs: 'Fr',
  mm: 'mm',
  mms: 'mm',
  cms: 'cm',
  secs: 's',
  gm: 'g',
  gms: 'g',
  'millimetres of mercury': 'mmHg',
  'millimeters of mercury': 'mmHg',
  'mils per second': 'mL/s',
  'ml per second': 'mL/s',
  'ml a second': 'mL/s',
  'a second': 'mL/s',
  'per second': 'mL/s',
};

/** Spellings that are words of their own in a line (`in`, `a`, `m`). */
const notUnits = new Set([
  'in',
  'a',
  'm',
  'd',
  'u',
  '"',
  '″',
  'ch',
  'ie',
  '',
  '1',
  'torr',
  'pound',
  'pounds',
]);

const spellings = new Map<string, string>();
for (const unit of units)
  if (measured.includes(unit.dimension))
    for (const spelling of unit.spellings) {
      const plain = spelling.toLowerCase();
      if (!notUnits.has(plain) && !/[[\]{}]/.test(plain) && !spellings.has(plain))
        spellings.set(plain, unit.display);
    }
for (const [said, unit] of Object.entries(saidUnits)) spellings.set(said, unit);

const sizeSpellings = [...spellings]
  .filter(([, unit]) => ['mm', 'cm', 'µm', 'in', 'Fr', 'G'].includes(unit))
  .map(([said]) => said);

/** How a unit of a line is printed: `French` gives `Fr`. `G` and `g` are one here: what follows tells them apart. */
export function unitOfLine(said: string): string {
  const exact = unitNamed(said);
  const plain = said.toLowerCase().replace(/\s+/g, ' ');
  return spellings.get(plain) ?? exact?.display ?? said;
}

const quoted = (words: Iterable<string>) =>
  [...words]
    .sort((a, b) => b.length - a.length)
    .map(word => `caseInsensitive<${JSON.stringify(word)}>`)
    .join(' | ');

const ones = 'one two three four five six seven eight nine'.split(' ');
const teens = 'ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(' ');
const tens = 'twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');

/** Value of a number word. */
export const numberWords: ReadonlyMap<string, number> = new Map([
  ['zero', 0],
  ['oh', 0],
  ...ones.map((word, index): [string, number] => [word, index + 1]),
  ...teens.map((word, index): [string, number] => [word, index + 10]),
  ...tens.map((word, index): [string, number] => [word, (index + 2) * 10]),
]);

/**
 * A line as pieces, each with its place: a time at the front, sizes and amounts as they are said or typed, words, marks.
 * What the pieces mean together is not the grammar's: people put them in any order.
 */
const GRAMMAR = String.raw`
  CaseLine {
    line = space* (stamp space*)? (piece space*)*

    stamp = caseInsensitive<"at ">? space* clock ~(gap? (~ordinal unit | by)) stampEnd?
    ordinal = caseInsensitive<"second"> space
    meridiem = space* (caseInsensitive<"am"> | caseInsensitive<"pm">) ~alnum
    stampEnd = space* (":" | "-" | "–" | ".") &space
    clock = digit digit? ":" digit digit (":" digit digit)? meridiem? ~alnum  -- colon
          | digit digit? "." digit digit meridiem? ~(alnum | "." digit)       -- point
          | digit digit digit digit caseInsensitive<"h">? ~alnum ~("." digit) ~(gap caseInsensitive<"of">)  -- plain
          | digit digit? caseInsensitive<"h"> digit digit ~alnum    -- hours
          | zero gap one gap earlyMinutes ~alnum                       -- early
          | small gap spokenMinutes ~alnum                             -- spoken
    earlyMinutes = zero gap one                                                       -- few
                 | (${quoted(tens)} | ${quoted(teens)}) (gap? one)?  -- many
    spokenMinutes = zero gap one -- few
                  | small        -- many
    later = caseInsensitive<"at"> space+ clock ~(gap? (unit | by)) -- said
          | digit digit? ":" digit digit meridiem? ~alnum          -- typed

    piece = later -- time
          | wire | pair | span | amount | number -- bare
          | word | mark

    wire = "0"? "." "0" digit digit ~alnum (gap? inch)?            -- decimal
         | "0" digit digit ~alnum ~("." digit) ~(gap? (unit | by)) -- typed
         | zero gap one gap one (gap? (caseInsensitive<"inches"> | caseInsensitive<"inch">) ~alnum)?  -- spoken
    inch = (caseInsensitive<"inches"> | caseInsensitive<"inch"> | caseInsensitive<"in">) ~alnum -- word
         | "\""                                                                                -- sign

    pair = number (gap? sizeUnit)? gap? by gap? number (gap? sizeUnit)? ~(gap? unit)
    by = caseInsensitive<"x"> | "×" | "*" | caseInsensitive<"by">
    span = number until number gap? unit
    until = space* ("-" | "–") space*          -- sign
          | gap caseInsensitive<"to"> gap      -- word
    amount = number gap? minutes gap (caseInsensitive<"and"> gap)? number gap? seconds -- both
           | number gap? unit                                  -- plain
           | (caseInsensitive<"a"> | caseInsensitive<"an">) gap unit (gap caseInsensitive<"and a half"> ~alnum)?  -- one
           | caseInsensitive<"half a"> gap unit                -- half
    minutes = (caseInsensitive<"minutes"> | caseInsensitive<"minute"> | caseInsensitive<"mins"> | caseInsensitive<"min">) ~alnum
    seconds = (caseInsensitive<"seconds"> | caseInsensitive<"secs"> | caseInsensitive<"sec"> | caseInsensitive<"s">) ~alnum
    unit = (${quoted(spellings.keys())}) ~alnum

    sizeUnit = (${quoted(sizeSpellings)}) ~alnum

    number = thousands | decimal | spoken
    thousands = digit digit? digit? "," digit digit digit ~alnum ~("," digit)
    decimal = digit+ ("." digit+)? (gap? caseInsensitive<"and a half"> ~alnum)?  -- digits
            | "." digit+                                       -- point
    spoken = large (gap caseInsensitive<"and a half"> ~alnum)?   -- whole
    large = hundreds gap caseInsensitive<"thousand"> ~alnum (gap hundreds)? -- thousands
          | hundreds                                                     -- plain
    hundreds = small gap caseInsensitive<"hundred"> ~alnum (gap (caseInsensitive<"and"> gap)? small)?  -- many
             | small (gap caseInsensitive<"point"> gap (zero | one))?  -- few
    small = (${quoted(tens)}) (gap? one)? ~alnum -- tens
          | (${quoted(teens)}) ~alnum -- teens
          | one -- ones
    one = (${quoted(ones)}) ~alnum
    zero = (caseInsensitive<"zero"> | caseInsensitive<"oh"> | caseInsensitive<"nought"> | "o" | "O") ~alnum
    gap = (space | "-")+

    word = (letter | "_") wordRest*
    wordRest = alnum | "_" | joint
    joint = ("'" | "’" | "-" | "/") &alnum
    mark = any
  }
`;

/** Makes the grammar, which takes a fifth of a second: with the first line, and not with the program. */
export const lineGrammar = (): Grammar => grammar(GRAMMAR);
