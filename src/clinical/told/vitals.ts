import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { convert, type Quantity } from '../../record/quantity.js';
import { remembered } from '../../record/remembered.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { unitNamed } from '../../record/units.js';
import { type Analyte, analyteNamed } from '../../trade/analytes.js';
import { type Range, refused, within } from '../plausible.js';
import { conditionsTold } from '../texts.js';
import type { Written } from './beside.js';
import { closeTo } from './figure.js';

interface Sign {
  readonly what: Message;
  /** The first group is the figure. */
  readonly words: RegExp;
  readonly range: Range;
}

type SignName =
  | 'temperature'
  | 'oxygen saturation'
  | 'pulse'
  | 'systolic blood pressure'
  | 'diastolic blood pressure'
  | 'week of pregnancy'
  | 'pH';

const sign = (what: SignName, words: string, unit: string, least: string, most: string): Sign => ({
  what: message(`sign.${what}`),
  words: new RegExp(words, 'gi'),
  range: { unit, least, most },
});

const N = '(\\d+(?:\\.\\d+)?)';
const link = '(?:\\s+(?:of|is|was|at|about|only|now|fell to|rose to|down to|up to))*\\s*:?\\s*';

/** What is told of a living patient, beyond which the figure is wrong. Common practice, no source. */
const signs: readonly Sign[] = [
  sign('temperature', `\\b(?:temp(?:erature)?|fever|febrile)${link}${N}\\s?°?\\s?C\\b`, 'Cel', '24', '43'),
  sign('oxygen saturation', `\\b(?:saturations?|sats?|SpO2)${link}${N}\\s?%`, '%', '20', '100'),
  sign('pulse', `\\b(?:pulse|heart rate)${link}${N}(?![\\d.]*\\s?(?:%|mm|/))`, '/min', '15', '320'),
  sign(
    'systolic blood pressure',
    `\\b(?:blood pressure|BP|systolic(?: pressure)?)${link}${N}`,
    'mm[Hg]',
    '25',
    '320',
  ),
  sign('diastolic blood pressure', `\\b(?:blood pressure|BP)${link}\\d+\\s?/\\s?${N}`, 'mm[Hg]', '10', '200'),
  sign(
    'week of pregnancy',
    `${N}\\s+(?:completed )?weeks? (?:of (?:pregnancy|gestation)|pregnant|gestation)`,
    'wk',
    '1',
    '43',
  ),
  sign('week of pregnancy', `\\bpregnan(?:cy|t)(?: of)? ${N} weeks`, 'wk', '1', '43'),
  sign('pH', `\\bpH${link}${N}`, '1', '0.5', '9'),
];

const quantityOf = (value: string, code: string): Quantity => ({
  value,
  unit: code === '1' ? '' : code,
  code,
});

/** Scores are told as so many of the most that they can be. */
const score =
  /\b(\d{1,3}(?:\.\d)?) (?:of|out of) (\d{1,3})\b|\b(?:pain|score|VAS|NRS)[\w ]{0,12}? (\d{1,2}) ?\/ ?(10|100)\b/gi;
const scored = /\b(?:pain|score|VAS|NRS|NIHSS|GCS|scale|nausea)\b/i;

/** Vital signs, scores and laboratory values in words: such as nobody has, and other than those of the lists. */
export function checkVitals(record: CaseRecord, written: readonly Written[]): Finding[] {
  const texts = [...written, ...conditionsTold(record).map(one => ({ ...one, early: true }))].filter(
    ({ path }) => !/^(?:advice|aftercare)/.test(path),
  );
  return texts.flatMap(({ path, text, early }) => {
    const short = text.slice(0, 2000);
    return [
      ...scores(path, short),
      ...unlikely(path, short),
      ...turned(path, short),
      ...labs(record, path, short, early),
    ].slice(0, 1);
  });
}

function scores(path: string, text: string): Finding[] {
  return text.split(/[.;]\s|;/).flatMap(clause =>
    scored.test(clause)
      ? [...clause.matchAll(score)].flatMap(([, one, of, two, most]) => {
          const [value, top] = [one ?? two ?? '', of ?? most ?? ''];
          return Number(value) > Number(top)
            ? [refused(clause.trim(), quantityOf(value, '1'), [{ unit: '1', least: '0', most: top }], path)]
            : [];
        })
      : [],
  );
}

function unlikely(path: string, text: string): Finding[] {
  return unlikelyIn(text).map(({ what, value, range }) =>
    refused(what, quantityOf(value, range.unit), [range], path),
  );
}

const unlikelyIn = remembered((text): readonly { what: Message; value: string; range: Range }[] =>
  signs.flatMap(({ what, words, range }) =>
    [...text.matchAll(words)]
      .map(([, value = '']) => ({ what, value, range }))
      .filter(({ value }) => Number(value) < Number(range.least) || Number(value) > Number(range.most)),
  ),
);

/** A blood pressure as words tell it: systolic and diastolic, mmHg. */
export const pressures = /\b(?:blood pressure|BP)\b[^\d.;]{0,20}(\d{2,3})\s?\/\s?(\d{2,3})\b/gi;

/** A diastolic pressure that is not under the systolic one. */
function turned(path: string, text: string): Finding[] {
  return [...text.matchAll(pressures)].flatMap(([, high = '', low = '']) =>
    Number(low) < Number(high)
      ? []
      : [
          refused(
            message('sign.diastolic blood pressure'),
            quantityOf(low, 'mm[Hg]'),
            [{ unit: 'mm[Hg]', least: '10', most: high }],
            path,
          ),
        ],
  );
}

const named =
  /((?:[A-Za-z][\w-]*\s+){0,2}[A-Za-z][\w-]*)(?:\s+(?:of|is|was|at))?\s*:?\s+(\d+(?:\.\d+)?)(?:\s?(x ?10\^?9\/L|[A-Za-zµ%][\w/µ·]*))?/g;

const isAnalyte = (words: string): Analyte | undefined => {
  const list = words.split(/\s+/);
  for (let from = 0; from < list.length; from++) {
    const row = analyteNamed(list.slice(from).join(' '));
    if (row) return row;
  }
  return undefined;
};

/** A laboratory value as a text tells it. */
interface ToldValue {
  readonly words: string;
  readonly row: Analyte;
  readonly told: Quantity;
}

const valuesIn = remembered((text): readonly ToldValue[] =>
  [...text.matchAll(named)].flatMap(([, words = '', value = '', written = '']) => {
    const row = isAnalyte(words);
    const unit = written === '' ? undefined : unitNamed(written);
    const code = unit?.code ?? (row?.name === 'INR' ? '1' : undefined);
    return row && code !== undefined
      ? [{ words, row, told: { value, unit: unit?.display ?? '', code } }]
      : [];
  }),
);

function labs(record: CaseRecord, path: string, text: string, early: boolean): Finding[] {
  return valuesIn(text).flatMap(({ words, row, told }) => {
    const { value, code } = told;
    if (within(told, row.plausible) === false) return [refused(row.name, told, row.plausible, path)];
    const after = /^outcome/.test(path) ? (record.after?.labs ?? []) : [];
    const list = [...(early || after.length === 0 ? (record.before?.labs ?? []) : []), ...after]
      .filter(({ what }) => analyteNamed(what.text)?.name === row.name)
      .flatMap(({ value: known }) => {
        const own = convert(known, code);
        return own ? [{ known, own }] : [];
      });
    const [first] = list;
    if (!first || list.some(({ own }) => closeTo(new Decimal(value), own) || !isSlip(value, own))) return [];
    return [
      finding('clinical.measurement-differs', path, {
        what: message('measure.told', { text: `${words} ${value}` }),
        value: { quantity: told },
        other: { quantity: first.known },
        place: after.length > 0 ? 'after.labs' : 'before.labs',
      }),
    ];
  });
}

/** Values of two times differ; the same digits in another order, or the point moved, are one value mistyped. */
function isSlip(told: string, own: Decimal): boolean {
  const digits = (text: string) => text.replace(/\D|^0+|0+$/g, '');
  const [a, b] = [digits(told), digits(own.toString())];
  const mixed = a.length > 1 && a !== b && [...a].sort().join('') === [...b].sort().join('');
  const value = Number(told);
  const moved = [10, 100, 1000, 0.1, 0.01, 0.001].some(
    times => Math.abs(value - own.toNumber() * times) < 1e-9 * Math.max(1, value),
  );
  return mixed || moved;
}
