import { SaxesParser } from 'saxes';

/** One line of the printed report: a fact's value, or one line of a table's cell. */
export interface PaperLine {
  readonly section: string;
  /** Label of the fact, or title of the column. */
  readonly label: string;
  /** Head of the row it stands in; empty for facts. */
  readonly row: string;
  readonly text: string;
  /** Printed as "not recorded", "none" and the like, in another hand. */
  readonly unsaid: boolean;
}

interface Cell {
  readonly head: boolean;
  readonly lines: string[];
  unsaid: boolean;
}

/** Reads the full report's page as a reader does: labels and lines, section by section. */
export function paperLines(html: string): PaperLine[] {
  const found: PaperLine[] = [];
  let section = '';
  let columns: string[] = [];
  let inHead = false;
  let cells: Cell[] = [];
  let cell: Cell | undefined;
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    const of = /\bsection of-(\w+)/.exec(String(attributes['class'] ?? ''));
    if (of) section = of[1] ?? '';
    if (name === 'header' || name === 'footer') section = name;
    if (name === 'table') columns = [];
    if (name === 'thead') inHead = true;
    if (name === 'tr') cells = [];
    if (name === 'td' || name === 'th') {
      cell = { head: name === 'th', lines: [''], unsaid: false };
      cells.push(cell);
    }
    if (name === 'br') cell?.lines.push('');
    if (name === 'em' && cell) cell.unsaid = true;
  });
  parser.on('text', text => {
    if (!cell) return;
    cell.lines[cell.lines.length - 1] += text.replace(/\s+/g, ' ');
  });
  parser.on('closetag', ({ name }) => {
    if (name === 'td' || name === 'th') cell = undefined;
    if (name === 'thead') inHead = false;
    if (name !== 'tr') return;
    const text = (of: Cell | undefined) => (of?.lines ?? []).join(' ').trim();
    if (inHead) {
      columns = cells.map(text);
      return;
    }
    const put = (of: Cell | undefined, label: string, row: string) => {
      for (const line of of?.lines ?? [])
        if (line.trim() !== '')
          found.push({ section, label, row, text: line.trim(), unsaid: of?.unsaid ?? false });
    };
    if (columns.length > 0)
      for (const [index, of] of cells.entries()) put(of, columns[index] ?? '', text(cells[0]));
    else for (let i = 0; i + 1 < cells.length; i += 2) put(cells[i + 1], text(cells[i]), '');
  });
  parser.write(html).close();
  return found;
}
