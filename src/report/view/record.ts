import type { Lexicon } from '../../findings/say.js';
import { withGapsLast } from './gaps.js';
import type { Fact, FactsBlock, ReportView, SectionKey } from './model.js';
import type { DocumentSection, Node } from './nodes.js';
import { fields, paragraph, section, taskTable, whereabouts } from './readers.js';

/** What a colleague reads, in this order; the rest is the annex. */
const front = [
  'indication',
  'done',
  'findings',
  'outcome',
  'complications',
  'whereabouts',
  'inside',
  'brief',
  'aftercare',
  'advice',
  'conclusion',
] as const;
const annex = [
  'case',
  'before',
  'consent',
  'team',
  'drugs',
  'technique',
  'devices',
  'images',
  'specimens',
  'dose',
  'worked',
  'warnings',
  'signature',
  'codes',
] as const satisfies readonly SectionKey[];

/** Keys of the sections of the full report, in their usual order. */
export const recordKeys: readonly string[] = [...front, 'annex', ...annex, 'absent'];

/**
 * The full report: what a colleague reads first, then an annex on a page of its own with all that stands behind it.
 * @param figures pictures that follow a section
 */
export function recordSections(
  view: ReportView,
  words: Lexicon,
  figures: (key: SectionKey) => readonly Node[],
): DocumentSection[] {
  const { say } = words;
  const { facts: f, tasks } = view;
  const whole = (key: SectionKey) => {
    const { title, blocks } = view.section[key];
    return section(key, title, ...blocks, ...figures(key));
  };
  // All of it on few lines: the ward and the referrer have it set out in their own reports.
  const all = taskTable(
    tasks.all.map(task => ({ ...task, when: oneLine(task.when), call: oneLine(task.call) })),
    say,
    true,
  );
  return [
    whole('indication'),
    ...(f.course.said ? [section('done', say('record.done'), fields([f.course]))] : []),
    whole('findings'),
    withoutFact(whole('outcome'), f.conclusion.key),
    whole('complications'),
    ...whereabouts(view, say),
    whole('inside'),
    section('brief', say('record.brief'), fields([f.contrast, f.radiation].map(inOneLine))),
    all ? section('aftercare', say('section.aftercare'), all) : whole('aftercare'),
    whole('advice'),
    section('conclusion', say('record.conclusion'), fields([f.conclusion, f.signature])),
    { ...section('annex', say('record.annex'), paragraph(say('record.annexNote'))), page: true },
    ...withGapsLast(annex.map(whole), words),
  ];
}

const inOneLine = (fact: Fact): Fact => ({ ...fact, lines: oneLine(fact.lines) });
const oneLine = (lines: readonly string[]) => (lines.length > 1 ? [lines.join('; ')] : lines);

/** The section without a fact that is said in another place. */
function withoutFact(of: DocumentSection, key: string): DocumentSection {
  const facts = (block: FactsBlock): FactsBlock => ({
    ...block,
    facts: block.facts.filter(fact => fact.key !== key),
  });
  return { ...of, nodes: of.nodes.map(node => (node.kind === 'facts' ? facts(node) : node)) };
}
