import type { Item } from './items.js';

/** The sections that a site adds, from their plain text: a line with a rule under it is a heading. */
export function moreItems(text: string): Item[] {
  const items: Item[] = [];
  let lines: string[] = [];
  const end = () => {
    if (lines.length > 0) items.push({ kind: 'text', lines, look: 'plain' });
    lines = [];
  };
  const all = text.split('\n').map(line => line.trimEnd());
  for (const [index, line] of all.entries()) {
    if (isRule(line)) continue;
    if (line !== '' && isRule(all[index + 1] ?? '')) {
      end();
      items.push({ kind: 'heading', text: line });
    } else if (line === '') end();
    else lines.push(line);
  }
  end();
  return items;
}

const isRule = (line: string) => /^(?:-{3,}|={3,})$/.test(line);
