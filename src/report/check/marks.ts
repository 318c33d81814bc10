import type { Audience } from '../options.js';
import type { Fact } from '../view/model.js';
import type { Node, ReportDocument } from '../view/nodes.js';

/** What no report may leave out, for whichever reader. */
export const mustFacts = [
  'patient identity',
  'status',
  'laterality',
  'in-situ devices',
  'retained parts',
  'complications',
  'allergies',
  'aftercare',
  'caution',
  'what was done',
] as const;
export type MustFact = (typeof mustFacts)[number];

/** Sections of which no line may be left out, by reader. */
const sections: Record<Audience, Readonly<Record<string, MustFact>>> = {
  record: { complications: 'complications', inside: 'in-situ devices', aftercare: 'aftercare' },
  referrer: { inside: 'in-situ devices', you: 'aftercare' },
  ward: { inside: 'in-situ devices', you: 'aftercare' },
  patient: {
    done: 'what was done',
    inside: 'in-situ devices',
    do: 'aftercare',
    advice: 'aftercare',
    help: 'aftercare',
    next: 'aftercare',
    know: 'allergies',
  },
};
/** Facts that may not be left out, wherever they stand, by key. */
const facts: Readonly<Record<string, MustFact>> = {
  side: 'laterality',
  allergies: 'allergies',
  complications: 'complications',
  name: 'patient identity',
  birthDate: 'patient identity',
  identifiers: 'patient identity',
  status: 'status',
};

/** One word put in the place of a line, by which it is found again in what is made of the document. */
export interface Mark {
  readonly token: string;
  readonly fact: MustFact;
  /** Mark of the label that must stand right before it: `None` alone says nothing. */
  readonly label?: string;
}

/** The document with marks in place of the lines that its reader must be given; everything else stays as it is. */
export function markedDocument(document: ReportDocument): { document: ReportDocument; marks: Mark[] } {
  const marks: Mark[] = [];
  let count = 0;
  const token = () => `Zq${count++}z`;
  const mark = (fact: MustFact, label?: string): string => {
    const made = token();
    marks.push({ token: made, fact, ...(label !== undefined && { label }) });
    return made;
  };
  const list = (fact: MustFact, lines: readonly string[]) => lines.map(() => mark(fact));
  const alarm = (fact: MustFact, alert: boolean): MustFact =>
    alert && fact === 'in-situ devices' ? 'retained parts' : fact;
  /** The first line must follow its label. */
  const labelled = (fact: MustFact, of: Fact): Fact => {
    const label = token();
    return { ...of, label, lines: of.lines.map((_, i) => mark(fact, i === 0 ? label : undefined)) };
  };
  const marked = (node: Node, whole: MustFact | undefined): Node => {
    if (node.kind === 'facts')
      return {
        ...node,
        facts: node.facts.map(of => {
          const fact = whole ?? facts[of.key];
          return fact === undefined ? of : labelled(fact, of);
        }),
      };
    if (whole === undefined) return node;
    switch (node.kind) {
      case 'paragraph':
        return { ...node, lines: list(whole, node.lines) };
      case 'list':
        return {
          ...node,
          items: node.items.map(item => ({ ...item, lines: list(alarm(whole, item.alert), item.lines) })),
        };
      case 'table':
        return {
          ...node,
          rows: node.rows.map(row => ({
            ...row,
            head: { ...row.head, lines: list(alarm(whole, row.alert), row.head.lines) },
            cells: row.cells.map(cell => ({ ...cell, lines: list(alarm(whole, row.alert), cell.lines) })),
          })),
        };
      default:
        return node;
    }
  };
  const strip = document.strip.rows.map(row =>
    row.map(entry => {
      const fact = facts[entry.key];
      return fact === undefined ? entry : { ...entry, value: mark(fact) };
    }),
  );
  return {
    document: {
      ...document,
      strip: { ...document.strip, rows: strip },
      callout: list('status', document.callout),
      sections: document.sections.map(section => ({
        ...section,
        nodes: section.nodes.map(node => marked(node, sections[document.audience][section.key])),
      })),
      caution: list('caution', document.caution),
    },
    marks,
  };
}

/** The facts whose marks are not in a text, or stand apart from their label. */
export function dropped(text: string, marks: readonly Mark[]): MustFact[] {
  const missing = marks.filter(({ token, label }) =>
    label === undefined
      ? !text.includes(token)
      : !new RegExp(`${label}[^\\p{L}\\p{N}]*${token}`, 'u').test(text),
  );
  return [...new Set(missing.map(mark => mark.fact))];
}
