import type { Lexicon } from '../../findings/say.js';
import type { Fact, FactsBlock, TableBlock } from './model.js';
import type { DocumentSection, Node } from './nodes.js';

/** A node without what nobody recorded, and the names of what that was. */
interface Thinned {
  readonly node: Node;
  readonly names: readonly string[];
}

/**
 * Sections without what nobody recorded, which is told once at their end: a column in which every row says so, and facts
 * beside others that were recorded. What is left of a section is never empty.
 */
export function withGapsLast(sections: readonly DocumentSection[], { say }: Lexicon): DocumentSection[] {
  const missing = say('absent.notRecorded');
  const gaps: { readonly title: string; readonly names: readonly string[] }[] = [];
  const thinned = sections.map(one => {
    const nodes = one.nodes.map(node => thin(node, missing));
    for (const [index, { names }] of nodes.entries()) {
      const node = one.nodes[index];
      const caption = node && 'caption' in node ? node.caption : '';
      if (names.length > 0) gaps.push({ title: caption === '' ? one.title : caption, names });
    }
    return { ...one, nodes: nodes.map(({ node }) => node) };
  });
  if (gaps.length === 0) return thinned;
  const facts: Fact[] = gaps.map(({ title, names }, n) => ({
    key: `absent-${n + 1}`,
    label: title,
    lines: [names.join(', ')],
    mark: 'not recorded',
    said: true,
  }));
  const nodes: Node[] = [{ kind: 'facts', caption: '', facts, across: 1 }];
  return [...thinned, { key: 'absent', title: missing, framed: false, page: false, nodes }];
}

/** A node without the columns in which every row says that nothing was recorded. */
export const withoutGaps = (node: Node, { say }: Pick<Lexicon, 'say'>): Node =>
  node.kind === 'table' ? thinTable(node, say('absent.notRecorded')).node : node;

function thin(node: Node, missing: string): Thinned {
  if (node.kind === 'facts') return thinFacts(node);
  return node.kind === 'table' ? thinTable(node, missing) : { node, names: [] };
}

function thinFacts(block: FactsBlock): Thinned {
  const gone = block.facts.filter(({ mark }) => mark === 'not recorded');
  if (gone.length === 0 || gone.length === block.facts.length) return { node: block, names: [] };
  return {
    node: { ...block, facts: block.facts.filter(({ mark }) => mark !== 'not recorded') },
    names: gone.map(({ label }) => label),
  };
}

function thinTable(block: TableBlock, missing: string): Thinned {
  const isGap = (column: number) =>
    block.rows.length > 0 &&
    block.rows.every(({ cells }) => {
      const lines = cells[column]?.lines ?? [];
      return lines.length === 1 && lines[0] === missing;
    });
  const columns = block.columns.slice(1);
  const gone = new Set([...columns.keys()].filter(isGap));
  if (gone.size === 0 || gone.size === columns.length) return { node: block, names: [] };
  const kept = <T>(list: readonly T[]) => list.filter((_, index) => !gone.has(index));
  return {
    node: {
      ...block,
      columns: [...block.columns.slice(0, 1), ...kept(columns)],
      rows: block.rows.map(row => ({ ...row, cells: kept(row.cells) })),
    },
    names: columns.filter((_, index) => gone.has(index)),
  };
}
