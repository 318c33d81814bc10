import type { Lexicon } from '../../findings/say.js';
import type { Audience } from '../options.js';
import { type ShownPicture, shownPictures } from '../pictures/stored.js';
import type { Fact, InsideItem, ReportView, Section, TableBlock, TaskItem } from '../view/model.js';
import type { Item } from './items.js';
import { moreItems } from './more.js';
import type { PdfOptions } from './options.js';
import { patientItems } from './patient.js';

/** Everything that one reader's report says, in order: the same choice and words as its HTML page. */
export function contentOf(
  view: ReportView,
  say: Lexicon['say'],
  audience: Audience,
  options: Pick<PdfOptions, 'timelineSvg' | 'doseSvg' | 'pictures' | 'more'> = {},
): Item[] {
  const more = moreItems(options.more ?? '');
  switch (audience) {
    case 'record':
      return [
        ...head(view, say, audience),
        ...view.sections.flatMap(section => [
          ...sectionItems(section),
          ...(section.key === 'images' ? stored(shownPictures(view, options.pictures), say) : []),
          ...(section.key === 'dose' ? drawing(say('page.dose'), options.doseSvg, false) : []),
        ]),
        ...more,
        ...caution(view.caution),
        ...drawing(say('page.timeline'), options.timelineSvg, true),
      ];
    case 'referrer':
      return [...head(view, say, audience), ...referrerItems(view, say), ...more, ...caution(view.caution)];
    case 'ward':
      return [...head(view, say, audience), ...wardItems(view, say), ...more, ...caution(view.caution)];
    case 'patient':
      return [...patientItems(view, say), ...more, ...caution(view.patient.caution)];
  }
}

function head(view: ReportView, say: Lexicon['say'], audience: Exclude<Audience, 'patient'>): Item[] {
  const { identity, status } = view;
  const kind = say(`page.audience.${audience}`);
  const notices: Item[] =
    status.notices.length === 0
      ? []
      : [{ kind: 'box', heavy: true, items: [{ kind: 'text', lines: status.notices, look: 'strong' }] }];
  return [
    { kind: 'title', above: view.place === '' ? kind : `${kind} · ${view.place}`, text: view.title },
    {
      kind: 'facts',
      caption: say('table.patient'),
      across: 2,
      framed: true,
      facts: [
        plain(say('label.name'), identity.name, true),
        plain(say('label.birthDate'), identity.birthDate),
        plain(say('label.identifiers'), identity.identifiers),
        plain(say('label.sex'), identity.sex),
        plain(say('label.date'), view.date),
        plain(say('label.caseId'), view.caseId),
        plain(say('label.status'), status.line, true),
        plain(say('label.signature'), status.signature),
      ],
    },
    ...notices,
  ];
}

/** A fact that stands in the head of a report. */
function plain(label: string, value: string, strong = false) {
  return { label, lines: [value], said: true, strong };
}

function drawing(caption: string, svg: string | undefined, alone: boolean): Item[] {
  return svg === undefined || svg === '' ? [] : [{ kind: 'picture', caption, svg, alone }];
}

function stored(list: readonly ShownPicture[], say: Lexicon['say']): Item[] {
  return list.length === 0 ? [] : [{ kind: 'stored', pictures: list, note: say('picture.note') }];
}

const heading = (text: string): Item => ({ kind: 'heading', text });
const caution = (lines: readonly string[]): Item[] => [{ kind: 'text', lines, look: 'soft' }];
const facts = (list: readonly Fact[], across: 1 | 2 = 1): Item => ({
  kind: 'facts',
  caption: '',
  facts: list,
  across,
  framed: false,
});

/** Sections of many short facts, which stand two by two. */
const paired: ReadonlySet<string> = new Set(['case', 'consent']);

function sectionItems({ key, title, blocks }: Section): Item[] {
  return [
    heading(title),
    ...blocks.map(
      (block): Item =>
        block.kind === 'table'
          ? { kind: 'table', table: block }
          : {
              kind: 'facts',
              caption: block.caption,
              facts: block.facts,
              across: paired.has(key) ? 2 : 1,
              framed: false,
            },
    ),
  ];
}

function referrerItems({ facts: f, ...view }: ReportView, say: Lexicon['say']): Item[] {
  return [
    heading(say('referrer.done')),
    facts([f.side, f.caseStatus, f.outcome, f.conclusion]),
    heading(say('referrer.inside')),
    inside(view.inside, f.inside, say),
    heading(say('referrer.you')),
    tasks(view.tasks.referrer, say, 'referrer.youNone'),
    ...(f.adviceReferrer.said ? [facts([f.adviceReferrer])] : []),
    heading(say('referrer.call')),
    contact(f.contact, say),
    heading(say('referrer.know')),
    facts(
      [f.indication, f.complications, f.allergies, f.anticoagulants, f.specimens, f.contrast, f.disposition],
      2,
    ),
    ...(view.tasks.notReferrer.length === 0
      ? []
      : [heading(say('referrer.others')), others(view.tasks.notReferrer)]),
  ];
}

function wardItems({ facts: f, ...view }: ReportView, say: Lexicon['say']): Item[] {
  const know = [
    f.condition,
    f.disposition,
    f.allergies,
    f.anticoagulants,
    f.bloodLoss,
    f.contrast,
    f.indication,
    f.specimens,
  ];
  return [
    heading(say('ward.done')),
    facts([f.side, f.caseStatus, f.outcome, f.complications]),
    heading(say('ward.call')),
    contact(f.contact, say),
    heading(say('ward.you')),
    tasks(view.tasks.ward, say, 'ward.youNone'),
    ...(f.adviceWard.said ? [facts([f.adviceWard])] : []),
    heading(say('ward.inside')),
    inside(view.inside, f.inside, say),
    heading(say('ward.know')),
    facts(know, 2),
    ...sectionItems({ ...view.section.drugs, title: say('ward.drugs') }),
    ...(view.tasks.notWard.length === 0
      ? []
      : [heading(say('ward.others')), tasks(view.tasks.notWard, say, 'ward.youNone', true)]),
  ];
}

function contact(fact: Fact, say: Lexicon['say']): Item {
  return { kind: 'text', lines: fact.said ? fact.lines : [say('referrer.unsure')], look: 'strong' };
}

/** A table of two columns whose caption is for those who cannot see the page. */
function pairs(caption: string, columns: readonly [string, string], rows: TableBlock['rows']): Item {
  return { kind: 'table', table: { kind: 'table', caption, columns, rows, wide: false, quiet: true } };
}

function inside(list: readonly InsideItem[], none: Fact, say: Lexicon['say']): Item {
  if (list.length === 0) return facts([none]);
  const columns = [say('column.device'), say('column.known')] as const;
  return pairs(
    say('section.inside'),
    columns,
    list.map(({ key, name, state, lines, alert }) => ({
      key,
      alert,
      head: { label: columns[0], lines: [name, state] },
      cells: [{ label: columns[1], lines }],
    })),
  );
}

function tasks(
  list: readonly TaskItem[],
  say: Lexicon['say'],
  none: 'referrer.youNone' | 'ward.youNone',
  named = false,
): Item {
  if (list.length === 0) return { kind: 'text', lines: [say(none)], look: 'plain' };
  const columns = [say('column.do'), say('column.when')] as const;
  return pairs(
    say('section.aftercare'),
    columns,
    list.map(({ key, what, who, when, call, urgent }) => ({
      key,
      alert: urgent,
      head: { label: columns[0], lines: [named ? say('field', { label: who, value: what }) : what] },
      cells: [{ label: columns[1], lines: [...when, ...call] }],
    })),
  );
}

/** What others do, a line each. */
function others(list: readonly TaskItem[]): Item {
  return {
    kind: 'list',
    entries: list.map(({ who, what, when, urgent }) => ({
      lines: [`${who}: ${what}; ${when[0] ?? ''}`],
      strong: false,
      alert: urgent,
    })),
  };
}
