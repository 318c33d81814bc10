import type Handlebars from 'handlebars';
import type { Node, Paragraph, Strip } from '../view/nodes.js';
import { bulleted, COLUMNS, factsText, heading, listed, pairs, tableText } from './layout.js';
import { wrap } from './wrap.js';

/** Helpers of plain text templates: each gives whole lines of at most 80 columns. */
export const textHelpers: Readonly<Record<string, Handlebars.HelperDelegate>> = {
  same: (one: unknown, other: unknown) => one === other,
  title: (text: string) => heading(text, '='),
  heading: (text: string) => heading(text, '-'),
  para: (text: string) => wrap(text, COLUMNS).join('\n'),
  notice: (text: string) => bulleted('*** ', [text]).join('\n'),
  pairs: ({ rows }: Strip) =>
    pairs(
      rows.flat().map(({ label, value }) => [label, [value]]),
      0,
    ).join('\n'),
  node: (node: Node) => nodeText(node),
};

/** What a node says. Pictures say nothing here: all that they show stands in a table. */
function nodeText(node: Node): string {
  switch (node.kind) {
    case 'facts':
      return `${factsText(node)}\n`;
    case 'table':
      return `${tableText(node)}\n`;
    case 'paragraph':
      return paragraphText(node);
    case 'list':
      return node.items.flatMap(({ lines }) => listed(lines)).join('\n');
    case 'figure':
    case 'gallery':
      return '';
  }
}

/** What people wrote stands in, so that nothing in it can look like a heading or a notice. */
function paragraphText({ lines, strong }: Paragraph): string {
  return lines.flatMap(line => bulleted(strong ? '  ' : '', [line])).join('\n');
}

/** At most one empty line at a time, none at the ends, no spaces at the ends of lines, one line feed at the end. */
export function tidy(text: string): string {
  const lines = text.split('\n').map(line => line.trimEnd());
  const kept = lines.filter((line, index) => line !== '' || (index > 0 && lines[index - 1] !== ''));
  return `${kept.join('\n').trim()}\n`;
}
