import type { Lexicon } from '../../findings/say.js';
import { withoutGaps } from './gaps.js';
import type { Fact, FactsBlock, InsideItem, PatientItem, ReportView, TaskItem } from './model.js';
import type { DocumentSection, ListItem, Node, Paragraph } from './nodes.js';

type Say = Lexicon['say'];

export function referrerSections(view: ReportView, { say }: Lexicon): DocumentSection[] {
  const { facts: f, tasks } = view;
  const know = [
    f.indication,
    f.complications,
    f.allergies,
    f.anticoagulants,
    f.specimens,
    f.contrast,
    f.disposition,
  ];
  return [
    section(
      'done',
      say('referrer.done'),
      ...death(view.ending.referrer),
      fields(withSide(f.side, f.caseStatus, f.outcome, f.conclusion)),
    ),
    ...whereabouts(view, say),
    section('inside', say('referrer.inside'), inside(view, say)),
    section(
      'you',
      say('referrer.you'),
      taskTable(tasks.referrer, say) ?? paragraph(say('referrer.youNone')),
      ...advice(f.adviceReferrer),
    ),
    section('call', say('referrer.call'), contact(f.contact, say)),
    section('know', say('referrer.know'), fields(know, 2)),
    ...listed(
      'others',
      say('referrer.others'),
      tasks.notReferrer.map(({ who, what, when, urgent }) => ({
        lines: [`${who}: ${what}; ${when[0] ?? ''}`],
        strong: false,
        alert: urgent,
      })),
    ),
  ];
}

/** In the order of a shift: what to watch now, what to do, how things are set, whom to call; then what is due later. */
export function wardSections(view: ReportView, { say }: Lexicon): DocumentSection[] {
  const { facts: f, tasks } = view;
  const know = [f.allergies, f.anticoagulants, f.bloodLoss, f.contrast, f.indication, f.specimens];
  const others = taskTable(tasks.notWard, say, true);
  return [
    section(
      'done',
      say('ward.done'),
      ...death(view.ending.ward),
      fields(withSide(f.side, f.caseStatus, f.outcome, f.complications)),
    ),
    ...whereabouts(view, say),
    section('now', say('ward.now'), fields([f.disposition, f.condition, f.access])),
    section(
      'you',
      say('ward.you'),
      taskTable(tasks.ward, say) ?? paragraph(say('ward.youNone')),
      ...advice(f.adviceWard),
    ),
    section('inside', say('ward.inside'), inside(view, say)),
    section('call', say('ward.call'), contact(f.contact, say)),
    section('know', say('ward.know'), fields(know, 2)),
    section(
      'drugs',
      say('ward.drugs'),
      ...view.section.drugs.blocks.map(block => withoutGaps(block, { say })),
    ),
    ...(others ? [section('others', say('ward.others'), others)] : []),
  ];
}

export function patientSections({ patient }: ReportView, { say }: Lexicon): DocumentSection[] {
  const points = (key: string, title: string, lines: readonly string[]) =>
    listed(key, title, lines.map(plain));
  return [
    section('done', say('patient.headDone'), ...patient.done.map(line => paragraph(line))),
    patient.insideNone === ''
      ? section('inside', say('patient.headInside'), {
          kind: 'list',
          items: patient.inside.map(named),
        })
      : section('inside', say('patient.headInside'), paragraph(patient.insideNone)),
    ...listed('whereabouts', say('patient.headMissing'), patient.missing.map(named)),
    ...points('do', say('patient.headDo'), patient.tasks),
    ...points('advice', say('patient.headAdvice'), patient.advice),
    {
      ...section(
        'help',
        say('patient.headHelp'),
        paragraph(say('patientHelp.intro')),
        { kind: 'list', items: patient.help.map(plain) },
        { ...paragraph(patient.call), strong: true },
        paragraph(say('patientHelp.emergency')),
      ),
      framed: true,
    },
    ...points('next', say('patient.headNext'), patient.next),
    section('know', say('patient.headKnow'), ...patient.know.map(line => paragraph(line))),
  ];
}

export function section(key: string, title: string, ...nodes: readonly Node[]): DocumentSection {
  return { key, title, framed: false, page: false, nodes };
}

/** A list under its title; nothing where there is nothing to list. */
function listed(key: string, title: string, items: readonly ListItem[]): DocumentSection[] {
  return items.length === 0 ? [] : [section(key, title, { kind: 'list', items })];
}

const named = ({ name, lines, alert }: PatientItem): ListItem => ({
  lines: [name, ...lines],
  strong: true,
  alert,
});

const plain = (line: string): ListItem => ({ lines: [line], strong: false, alert: false });

export function paragraph(...lines: readonly string[]): Paragraph {
  return { kind: 'paragraph', lines, strong: false };
}

export const fields = (facts: readonly Fact[], across: FactsBlock['across'] = 1): FactsBlock => ({
  kind: 'facts',
  caption: '',
  facts,
  across,
});

/** Many cases have no side: nobody looks for one then. */
const withSide = (side: Fact, ...others: readonly Fact[]): Fact[] =>
  side.said ? [side, ...others] : [...others];

const advice = (fact: Fact): Node[] => (fact.said ? [fields([fact])] : []);

function contact(fact: Fact, say: Say): Paragraph {
  return { ...paragraph(...(fact.said ? fact.lines : [say('referrer.unsure')])), strong: true };
}

/** Things with what is known of each; the caption is for those who cannot see the page. */
function items(
  caption: string,
  columns: readonly [string, string],
  rows: readonly {
    readonly key: string;
    readonly head: readonly string[];
    readonly lines: readonly string[];
    readonly alert: boolean;
  }[],
): Node {
  return {
    kind: 'table',
    caption,
    columns,
    wide: false,
    quiet: true,
    items: true,
    rows: rows.map(({ key, head, lines, alert }) => ({
      key,
      alert,
      head: { label: columns[0], lines: head },
      cells: [{ label: columns[1], lines }],
    })),
  };
}

function inside({ inside: list, facts }: ReportView, say: Say): Node {
  if (list.length === 0) return fields([facts.inside]);
  return things(say('section.inside'), say('column.known'), list, say);
}

/** What is unaccounted for, or cannot be found, apart from what is inside. */
export function whereabouts({ whereabouts: list }: ReportView, say: Say): DocumentSection[] {
  if (list.length === 0) return [];
  const title = say('section.whereabouts');
  return [section('whereabouts', title, things(title, say('column.found'), list, say))];
}

const death = (lines: readonly string[]): Node[] =>
  lines.length === 0 ? [] : [{ ...paragraph(...lines), strong: true }];

function things(caption: string, known: string, list: readonly InsideItem[], say: Say): Node {
  const rowOf = ({ key, name, state, lines, alert }: InsideItem) => ({
    key,
    head: [name, state],
    lines,
    alert,
  });
  return items(caption, [say('column.device'), known], list.map(rowOf));
}

export function taskTable(list: readonly TaskItem[], say: Say, named = false): Node | undefined {
  if (list.length === 0) return undefined;
  return items(
    say('section.aftercare'),
    [say('column.do'), say('column.when')],
    list.map(({ key, what, who, when, call, urgent }) => ({
      key,
      head: [named ? say('field', { label: who, value: what }) : what],
      lines: [...when, ...call],
      alert: urgent,
    })),
  );
}
