import type { WordKey } from '../../findings/languages.js';
import type { Complication, Target } from '../../record/schema/record.js';
import type { Printer } from '../print/printer.js';
import { absent, fact, facts, none, type Stated, said, section, table } from './blocks.js';
import type { Block, Fact, PictureItem, Section } from './model.js';

/** Before or after: where one was measured and the other was not, that is said. */
function measures(p: Printer, target: Target, after: boolean): string[] {
  const missing = p.say('absent.notRecorded');
  const line = (key: WordKey, before: string | undefined, then: string | undefined) =>
    before === undefined && then === undefined
      ? []
      : [p.say(key, { value: (after ? then : before) ?? missing })];
  const q = (key: 'narrowing' | 'lumen' | 'pressure') => {
    const [before, then] = [target[`${key}Before`], target[`${key}After`]];
    return line(`target.${key}`, before && p.quantity(before), then && p.quantity(then));
  };
  return [
    ...q('narrowing'),
    ...q('lumen'),
    ...line(
      'target.flow',
      target.flowBefore && p.say(`flow.${target.flowBefore}`),
      target.flowAfter && p.say(`flow.${target.flowAfter}`),
    ),
    ...q('pressure'),
    ...(target.measures ?? []).map(({ what, before, after: then }) => {
      const value = after ? then : before;
      return p.say('target.measure', { what: what.text, value: value ? p.quantity(value) : missing });
    }),
  ];
}

function targetTable(p: Printer): Block[] {
  const list = Object.entries(p.record.targets ?? {});
  if (list.length === 0) return [facts(p, undefined, [fact(p, 'targets', absent(p))])];
  const line = (key: WordKey, value: string | undefined) =>
    value === undefined ? undefined : p.say(key, { value });
  return [
    table(
      p,
      'table.targets',
      ['target', 'before', 'after', 'success'],
      list.map(([key, target]) => ({
        key: `targets.${key}`,
        cells: [
          [
            p.sided(target.what, target.side),
            line('target.lesion', target.lesion && p.place(target.lesion.text)),
            line('target.length', target.length && p.quantity(target.length)),
            line('target.diameter', target.diameter && p.quantity(target.diameter)),
            target.note,
          ],
          measures(p, target, false),
          measures(p, target, true),
          target.success && p.say(`success.${target.success}`),
        ],
      })),
    ),
  ];
}

export function findingsSection(p: Printer): Section {
  const list = (p.record.findings ?? []).map(({ about, text }) =>
    about === undefined ? text : p.say('finding.about', { target: p.target(about), text }),
  );
  return section(p, 'findings', [
    facts(p, undefined, [fact(p, 'findings', list.length > 0 ? said(...list) : absent(p, true))]),
    ...targetTable(p),
  ]);
}

export function imagesSection(p: Printer): Section {
  const list = p.record.images ?? [];
  if (list.length === 0)
    return section(p, 'images', [facts(p, undefined, [fact(p, 'images', absent(p, true))])]);
  return section(p, 'images', [
    table(
      p,
      'section.images',
      ['description', 'time', 'study'],
      list.map((image, index) => ({
        key: `images[${index}]`,
        cells: [
          image.description === undefined ? image.key : p.caseKind(image.description),
          image.at && p.moment(image.at),
          [
            image.study,
            image.series && p.say('image.series', { value: image.series }),
            image.file && p.say('image.file', { value: image.file }),
          ],
        ],
      })),
      true,
    ),
  ]);
}

/** The images that a file is named for, in the order of the record. */
export function pictureItems(p: Printer): PictureItem[] {
  return (p.record.images ?? []).flatMap((image, index): PictureItem[] => {
    if (image.file === undefined) return [];
    const what = image.description === undefined ? (image.key ?? image.file) : p.caseKind(image.description);
    const caption = image.at ? p.say('picture.caption', { what, time: p.moment(image.at) }) : what;
    return [{ key: `images[${index}]`, caption, alt: p.say('picture.alt', { what: caption }) }];
  });
}

const gradeOf = (p: Printer, { grade }: Complication) =>
  grade && p.say('complication.grade', { scale: grade.scale, grade: grade.grade });

/** One line a complication, with severity and grade. */
export function complications(p: Printer): Fact {
  return fact(p, 'complications', complicationsStated(p));
}

function complicationsStated(p: Printer): Stated {
  const list = p.record.complications;
  if (list === undefined) return absent(p, true);
  if (list === 'none') return none(p, 'complications.none');
  return said(
    ...list.map(entry => {
      const about = [entry.severity && p.say(`severity.${entry.severity}`), gradeOf(p, entry)].filter(
        word => word !== undefined,
      );
      return about.length > 0
        ? p.say('complication.short', { what: entry.what.text, detail: about.join(', ') })
        : entry.what.text;
    }),
  );
}

export function complicationsSection(p: Printer): Section {
  const list = p.record.complications;
  if (list === undefined || list === 'none')
    return section(p, 'complications', [facts(p, undefined, [complications(p)])]);
  const line = (key: WordKey, value: string | undefined) =>
    value === undefined ? undefined : p.say(key, { value });
  return section(p, 'complications', [
    table(
      p,
      'section.complications',
      ['complication', 'grade', 'treatment', 'course'],
      list.map((entry, index) => ({
        key: `complications[${index}]`,
        cells: [
          [
            entry.what.text,
            line('complication.at', entry.at && p.when(entry.at)),
            line('complication.device', entry.device && p.device(entry.device)),
            line('complication.target', entry.target && p.target(entry.target)),
            line('complication.suspect', entry.suspect?.text),
            line('complication.certainty', entry.certainty && p.say(`certainty.${entry.certainty}`)),
          ],
          [entry.severity && p.say(`severity.${entry.severity}`), gradeOf(p, entry)],
          [entry.treatment && p.say(`treatment.${entry.treatment}`), entry.action],
          [
            entry.harm && p.say(`harm.${entry.harm}`),
            entry.stay && p.say(`stay.${entry.stay}`),
            line('complication.result', entry.result),
          ],
        ],
        alert: entry.severity === 'severe' || entry.harm === 'permanent severe' || entry.harm === 'death',
      })),
      true,
    ),
  ]);
}
