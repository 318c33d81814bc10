import { source } from '../../clinical/calculation.js';
import type { ClinicalLimits, Limit } from '../../clinical/limits.js';
import { type Levels, levelsOf } from '../../clinical/radiation/levels.js';
import { element, lines, number, picture, text } from '../../devices/timeline/draw.js';
import type { Language } from '../../findings/languages.js';
import { type Lexicon, lexicon } from '../../findings/say.js';
import { convert, type Quantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';

/** Narrow enough for its letters to stay readable on the width of a printed page. */
const WIDTH = 620;
/** Names stand left of this, bars between the two, what was reached right of the second. */
const LEFT = 200;
const RIGHT = 390;
const ROW = 44;
const BAR = 13;
const DARK = '#1a1a1a';
const GREY = '#7a7a7a';

interface Figure {
  readonly levels: Levels;
  readonly quantity: Quantity;
  /** In the unit of its levels; a bound where the record gives one. */
  readonly amount: number;
}

/**
 * A small picture of the radiation figures against the levels that apply. Told apart by line and words, never by
 * colour; same input, same bytes. Empty when no figure was recorded.
 * @param limits of the site; a figure without a level is shown without a line
 */
export function dosePanelSvg(
  record: CaseRecord,
  limits: ClinicalLimits['radiation'],
  language: Language,
): string {
  const figures = figuresOf(record, limits);
  if (figures.length === 0) return '';
  const words = lexicon(language);
  const named = figures.flatMap(({ levels }) =>
    drawn(levels)
      .map(level => words.text(source(level.source)))
      .flatMap(said => said.split('; ')),
  );
  const sources = [...new Set(named)];
  const basis =
    sources.length === 0 ? [] : lines(words.say('dosePanel.basis', { list: sources.join('; ') }), 112);
  const bottom = 40 + figures.length * ROW;
  const height = bottom + 26 + basis.length * 13;
  const title = words.say('dosePanel.title');
  const body = [
    text(12, 20, title, { size: 14, weight: 'bold' }),
    ...figures.flatMap((figure, index) => row(figure, 48 + index * ROW, words)),
    ...legend(bottom + 8, words),
    ...basis.map((line, index) => text(12, bottom + 28 + index * 13, line, { size: 9.5 })),
  ];
  const description = figures.map(figure => `${nameOf(figure, words)}: ${saidOf(figure, words)}`).join('; ');
  return picture({ id: 'dose', width: WIDTH, height, title, description }, body);
}

function figuresOf(record: CaseRecord, limits: ClinicalLimits['radiation']): Figure[] {
  const given = record.radiation;
  if (given === undefined || given === 'none') return [];
  return levelsOf(limits).flatMap((levels): Figure[] => {
    const quantity = given[levels.field];
    const amount = quantity && convert(quantity, levels.code);
    return quantity && amount && !amount.isNegative()
      ? [{ levels, quantity, amount: amount.toNumber() }]
      : [];
  });
}

const drawn = ({ notify, substantial }: Levels): Limit[] =>
  [notify, substantial].filter(level => level !== undefined);

const nameOf = ({ levels }: Figure, words: Lexicon) => words.say(`label.${levels.field}`);

/** What the figure reaches; a bound that leaves it open (`< 6 Gy` against 5 Gy) is said to leave it open. */
function reached({
  levels,
  quantity,
  amount,
}: Figure): 'noLevel' | 'open' | 'substantial' | 'notify' | 'under' {
  const at = (level: Limit | undefined) => level !== undefined && amount >= Number(level.value);
  if (drawn(levels).length === 0) return 'noLevel';
  const state = at(levels.substantial) ? 'substantial' : at(levels.notify) ? 'notify' : 'under';
  if (quantity.comparator?.startsWith('<')) return state === 'under' ? 'under' : 'open';
  if (quantity.comparator?.startsWith('>')) return state === 'substantial' ? state : 'open';
  return state;
}

function saidOf(figure: Figure, words: Lexicon): string {
  const value = words.quantity(figure.quantity);
  return `${value}, ${words.say(`dosePanel.${reached(figure)}`)}`;
}

function row(figure: Figure, y: number, words: Lexicon): string[] {
  const { levels, amount, quantity } = figure;
  const values = drawn(levels).map(level => Number(level.value));
  const most = Math.max(amount, ...values) * 1.08 || 1;
  const x = (value: number) => LEFT + (value / most) * (RIGHT - LEFT);
  const state = reached(figure);
  const loud = state === 'substantial' || state === 'notify';
  const mark = (level: Limit | undefined, dashed: boolean) => {
    if (level === undefined) return [];
    const at = x(Number(level.value));
    const stroke = { stroke: DARK, 'stroke-width': dashed ? 1.2 : 2, 'stroke-dasharray': dashed && '3 2' };
    return [
      element('path', { d: `M${number(at)} ${y - 6}V${y + BAR + 6}`, fill: 'none', ...stroke }),
      text(at, y + BAR + 16, `${words.decimal(level.value)} ${levels.unit}`, {
        size: 9.5,
        anchor: 'middle',
      }),
    ];
  };
  const track = { x: LEFT, y, width: RIGHT - LEFT, height: BAR, fill: '#f2f2f2', stroke: '#c8c8c8' };
  const bar = { x: LEFT, y: y + 2, width: Math.max(x(amount) - LEFT, 1), height: BAR - 4 };
  return [
    text(12, y + 6, nameOf(figure, words), { size: 11 }),
    text(12, y + 20, words.quantity(quantity), { size: 12, weight: 'bold' }),
    // A length says something only against a level.
    ...(values.length === 0
      ? []
      : [element('rect', track), element('rect', { ...bar, fill: loud ? DARK : GREY })]),
    ...mark(levels.notify, true),
    ...mark(levels.substantial, false),
    text(RIGHT + 16, y + 10, words.say(`dosePanel.${state}`), { size: 11, weight: loud ? 'bold' : 'normal' }),
  ];
}

function legend(y: number, words: Lexicon): string[] {
  const line = (at: number, dashed: boolean) =>
    element('path', {
      d: `M${at} ${y - 9}v12`,
      fill: 'none',
      stroke: DARK,
      'stroke-width': dashed ? 1.2 : 2,
      'stroke-dasharray': dashed && '3 2',
    });
  return [
    line(16, true),
    text(24, y, words.say('dosePanel.keyNotify'), { size: 10 }),
    line(LEFT + 66, false),
    text(LEFT + 74, y, words.say('dosePanel.keySubstantial'), { size: 10 }),
  ];
}
