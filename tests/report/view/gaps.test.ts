import { describe, expect, it } from 'vitest';
import { lexicon } from '../../../src/findings/say.js';
import { withGapsLast } from '../../../src/report/view/gaps.js';
import type { Fact, TableBlock } from '../../../src/report/view/model.js';
import type { DocumentSection } from '../../../src/report/view/nodes.js';

const words = lexicon('en-GB');
const missing = words.say('absent.notRecorded');
const fact = (label: string, recorded: boolean): Fact => ({
  key: label,
  label,
  lines: [recorded ? `${label} is known` : missing],
  mark: recorded ? 'said' : 'not recorded',
  said: recorded,
});
const facts = (...list: readonly Fact[]): DocumentSection => ({
  ...{ key: 'case', title: 'Case', framed: false, page: false },
  nodes: [{ kind: 'facts', caption: '', facts: list, across: 1 }],
});
const columns = ['Drug', 'Dose', 'Reaction'];
const table = (...rows: readonly (readonly string[])[]): DocumentSection => {
  const cell = (text: string | undefined, n: number) => ({
    label: columns[n] ?? '',
    lines: text === '' || text === undefined ? [] : [text],
  });
  const block: TableBlock = {
    ...{ kind: 'table', caption: 'Drugs given', columns, wide: false, quiet: false, items: false },
    rows: rows.map(([drug, ...cells], n) => ({
      ...{ key: `${n}`, head: cell(drug, 0), alert: false },
      cells: cells.map((text, k) => cell(text, k + 1)),
    })),
  };
  return { key: 'drugs', title: 'Drugs', framed: false, page: false, nodes: [block] };
};
const told = (sections: readonly DocumentSection[]) => {
  const last = withGapsLast(sections, words).at(-1);
  const [node] = last?.key === 'absent' ? last.nodes : [];
  return node?.kind === 'facts' ? node.facts.map(({ label, lines }) => [label, ...lines]) : [];
};
const columnsOf = (section: DocumentSection) => {
  const [node] = withGapsLast([section], words)[0]?.nodes ?? [];
  return node?.kind === 'table' ? node.columns : [];
};

describe('what nobody recorded', () => {
  it('goes to the end, under the title or caption of where it was', () => {
    const sections = [
      facts(fact('Side', false), fact('Status', true)),
      table(['A', '1 mg', missing], ['B', '2 mg', missing]),
    ];
    expect(told(sections)).toEqual([
      ['Case', 'Side'],
      ['Drugs given', 'Reaction'],
    ]);
    expect(columnsOf(table(['A', '1 mg', missing]))).toEqual(['Drug', 'Dose']);
  });

  it('stays where one row has it, so that the others are not read as the same', () => {
    const one = table(['A', '1 mg', 'rash'], ['B', '2 mg', missing]);
    expect(told([one])).toEqual([]);
    expect(columnsOf(one)).toEqual(columns);
  });

  it('stays where a section would be left empty', () => {
    expect(told([facts(fact('Side', false))])).toEqual([]);
    expect(columnsOf(table(['A', missing, missing]))).toEqual(columns);
    expect(columnsOf(table())).toEqual(columns);
  });

  it('is not what is left empty on purpose, or told to be none', () => {
    expect(told([table(['A', '1 mg', ''])])).toEqual([]);
    const none: Fact = { ...fact('Allergies', true), lines: ['None'], mark: 'none', said: false };
    expect(told([facts(none, fact('Status', true))])).toEqual([]);
  });
});
