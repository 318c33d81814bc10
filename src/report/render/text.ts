import type Handlebars from 'handlebars';
import type { Block, FactsBlock } from '../view/model.js';
import { bulleted, COLUMNS, factsText, heading, tableText } from './layout.js';
import { groupHelper, wordHelper } from './markup.js';
import { wrap } from './wrap.js';

/** Helpers of plain text templates: each gives whole lines of at most 80 columns. */
export const textHelpers: Readonly<Record<string, Handlebars.HelperDelegate>> = {
  t: wordHelper,
  group: groupHelper,
  same: (one: unknown, other: unknown) => one === other,
  title: (text: string) => heading(text, '='),
  heading: (text: string) => heading(text, '-'),
  para: (text: string) => wrap(text, COLUMNS).join('\n'),
  notice: (text: string) => bulleted('*** ', [text]).join('\n'),
  item: (mark: string, text: string) => bulleted(mark, [text]).join('\n'),
  under: (text: string) => bulleted('    ', [text]).join('\n'),
  block: (block: Block) => (block.kind === 'table' ? tableText(block) : factsText(block)),
  facts: (block: FactsBlock) => factsText(block),
};

/** At most one empty line at a time, none at the ends, no spaces at the ends of lines, one line feed at the end. */
export function tidy(text: string): string {
  const lines = text.split('\n').map(line => line.trimEnd());
  const kept = lines.filter((line, index) => line !== '' || (index > 0 && lines[index - 1] !== ''));
  return `${kept.join('\n').trim()}\n`;
}
