import type { Audience } from '../options.js';
import { type Block, type Fact, type ReportView, type SectionKey, sectionKeys } from '../view/model.js';

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

/** One word put in the place of a line of the view, by which it is found again in what a template makes. */
export interface Mark {
  readonly token: string;
  readonly fact: MustFact;
  /** Mark of the label that must stand right before it: `None` alone says nothing. */
  readonly label?: string;
}

/** The view with marks in place of the lines that one reader must be given; everything else stays as it is. */
export function markedView(view: ReportView, audience: Audience): { view: ReportView; marks: Mark[] } {
  const marks: Mark[] = [];
  let count = 0;
  const token = () => `Zq${count++}z`;
  const mark = (fact: MustFact, label?: string): string => {
    const made = token();
    marks.push({ token: made, fact, ...(label !== undefined && { label }) });
    return made;
  };
  const list = (fact: MustFact, lines: readonly string[]) => lines.map(() => mark(fact));
  /** The first line must follow its label. */
  const labelled = (fact: MustFact, of: Fact): Fact => {
    const label = token();
    return { ...of, label, lines: of.lines.map((_, i) => mark(fact, i === 0 ? label : undefined)) };
  };

  const name = mark('patient identity');
  const birthDate = mark('patient identity');
  const identifiers = mark('patient identity');
  const status = mark('status');
  const only = (of: Fact, line: string): Fact => ({ ...of, lines: [line] });
  const common: ReportView = {
    ...view,
    identity: { ...view.identity, name, birthDate, identifiers },
    status: { ...view.status, line: status },
    facts: {
      ...view.facts,
      name: only(view.facts.name, name),
      birthDate: only(view.facts.birthDate, birthDate),
      identifiers: only(view.facts.identifiers, identifiers),
      status: only(view.facts.status, status),
    },
  };
  if (audience === 'patient') return { view: { ...common, patient: markedPatient(view, list, mark) }, marks };

  const allergies = labelled('allergies', view.facts.allergies);
  const side = labelled('laterality', view.facts.side);
  const insideOf = (alert: boolean): MustFact => (alert ? 'retained parts' : 'in-situ devices');
  const general: ReportView = {
    ...common,
    status: { ...common.status, notices: list('status', view.status.notices) },
    caution: list('caution', view.caution),
    facts: { ...common.facts, side, allergies },
  };
  if (audience === 'record') {
    const block = (fact: MustFact, of: Block): Block =>
      of.kind === 'facts'
        ? { ...of, facts: of.facts.map(entry => labelled(fact, entry)) }
        : {
            ...of,
            rows: of.rows.map(row => ({
              ...row,
              head: { ...row.head, lines: list(row.alert ? alertOf(fact) : fact, row.head.lines) },
              cells: row.cells.map(cell => ({ ...cell, lines: list(fact, cell.lines) })),
            })),
          };
    const put = (of: Block, key: string, fact: Fact): Block =>
      of.kind === 'facts' ? { ...of, facts: of.facts.map(old => (old.key === key ? fact : old)) } : of;
    const change: Partial<Record<SectionKey, (of: Block) => Block>> = {
      case: of => put(of, 'side', side),
      before: of => put(of, 'allergies', allergies),
      complications: of => block('complications', of),
      inside: of => block('in-situ devices', of),
      aftercare: of => block('aftercare', of),
    };
    const section = Object.fromEntries(
      sectionKeys.map(key => {
        const old = view.section[key];
        const with_ = change[key];
        return [key, with_ ? { ...old, blocks: old.blocks.map(with_) } : old];
      }),
    ) as ReportView['section'];
    return { view: { ...general, section, sections: sectionKeys.map(key => section[key]) }, marks };
  }
  return {
    view: {
      ...general,
      facts: {
        ...general.facts,
        complications: labelled('complications', view.facts.complications),
        ...(view.inside.length === 0 && { inside: labelled('in-situ devices', view.facts.inside) }),
      },
      inside: view.inside.map(item => ({
        ...item,
        name: mark(insideOf(item.alert)),
        state: mark(insideOf(item.alert)),
        lines: list(insideOf(item.alert), item.lines),
      })),
      tasks: {
        ...view.tasks,
        [audience]: view.tasks[audience].map(task => ({
          ...task,
          what: mark('aftercare'),
          when: list('aftercare', task.when),
          call: list('aftercare', task.call),
        })),
      },
    },
    marks,
  };
}

const alertOf = (fact: MustFact): MustFact => (fact === 'in-situ devices' ? 'retained parts' : fact);

function markedPatient(
  { patient }: ReportView,
  list: (fact: MustFact, lines: readonly string[]) => string[],
  mark: (fact: MustFact) => string,
): ReportView['patient'] {
  return {
    notices: list('status', patient.notices),
    done: list('what was done', patient.done),
    inside: patient.inside.map(item => {
      const fact = item.alert ? 'retained parts' : 'in-situ devices';
      return { ...item, name: mark(fact), lines: list(fact, item.lines) };
    }),
    insideNone: patient.insideNone === '' ? '' : mark('in-situ devices'),
    tasks: list('aftercare', patient.tasks),
    advice: list('aftercare', patient.advice),
    next: list('aftercare', patient.next),
    know: list('allergies', patient.know),
    help: list('aftercare', patient.help),
    call: mark('aftercare'),
    caution: list('caution', patient.caution),
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
