import type { Printer } from '../print/printer.js';
import { absent, fact, facts, section, table } from './blocks.js';
import type { Section } from './model.js';

interface CodeRow {
  readonly path: string;
  readonly text: string;
  readonly system: string;
  readonly code: string;
}
interface NumberRow {
  readonly path: string;
  readonly value: string;
  readonly system: string;
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const asText = (value: unknown) => (typeof value === 'string' ? value : undefined);

/** Walks the whole record, so that no code and no numbering system can be forgotten. */
function collect(record: unknown): { codes: CodeRow[]; numbers: NumberRow[] } {
  const codes: CodeRow[] = [];
  const numbers: NumberRow[] = [];
  const visit = (value: unknown, path: string, parent: string) => {
    if (Array.isArray(value)) {
      value.forEach((child, index) => {
        visit(child, `${path}[${index}]`, parent);
      });
      return;
    }
    if (!isObject(value)) return;
    const { system, value: number, code, display, version } = value;
    if (typeof system === 'string' && typeof code === 'string') {
      const shown = [code, asText(display), asText(version)].filter(word => word !== undefined);
      codes.push({ path, text: parent, system, code: shown.join(' · ') });
    } else if (typeof system === 'string' && typeof number === 'string')
      numbers.push({ path, value: number, system });
    const name = asText(value['text']) ?? asText(value['kind']) ?? parent;
    for (const [key, child] of Object.entries(value))
      visit(child, path === '' ? key : `${path}.${key}`, name);
  };
  visit(record, '', '');
  return {
    codes: once(codes, row => [row.text, row.system, row.code]),
    numbers: once(numbers, row => [row.value, row.system]),
  };
}

function once<T>(rows: readonly T[], key: (row: T) => readonly string[]): T[] {
  const seen = new Set<string>();
  return rows.filter(row => {
    const id = JSON.stringify(key(row));
    return !seen.has(id) && seen.add(id) !== undefined;
  });
}

/** What a code stands for: a kind of device, a place, a drug. */
const nameOf = (p: Printer, text: string): string =>
  [p.thing, p.place, p.drug].map(say => say(text)).find(said => said !== text) ?? text;

export function codesSection(p: Printer): Section {
  const { codes, numbers } = collect(p.record);
  const codeTable = table(
    p,
    'table.codes',
    ['what', 'code', 'codeSystem'],
    codes.map(row => ({ key: row.path, cells: [nameOf(p, row.text), row.code, row.system] })),
    true,
  );
  const numberTable = table(
    p,
    'table.systems',
    ['number', 'numberSystem'],
    numbers.map(row => ({ key: row.path, cells: [row.value, row.system] })),
    true,
  );
  const blocks = [...(codes.length > 0 ? [codeTable] : []), ...(numbers.length > 0 ? [numberTable] : [])];
  return section(
    p,
    'codes',
    blocks.length > 0 ? blocks : [facts(p, 'table.codes', [fact(p, 'note', absent(p))])],
  );
}
