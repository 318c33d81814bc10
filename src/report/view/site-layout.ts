import { parse } from 'yaml';
import { z } from 'zod';
import { CasetallyError } from '../../findings/errors.js';
import { type Language, languages } from '../../findings/languages.js';
import { type Audience, audiences } from '../options.js';
import type { DocumentSection, Node, ReportDocument } from './nodes.js';
import { paragraph } from './readers.js';
import { recordKeys } from './record.js';

/** Sections of each reader's report in their usual order, as a site's layout names them. */
export const sectionsFor: Readonly<Record<Audience, readonly string[]>> = {
  record: recordKeys,
  referrer: ['done', 'whereabouts', 'inside', 'you', 'call', 'know', 'others'],
  ward: ['done', 'whereabouts', 'now', 'you', 'inside', 'call', 'know', 'drugs', 'others'],
  patient: ['done', 'inside', 'whereabouts', 'do', 'advice', 'help', 'next', 'know'],
};

/** Words in every language, or by language; `en` serves all kinds of English, and any other that is not named. */
const words = z.union([z.string().min(1), z.partialRecord(z.enum(['en', ...languages]), z.string())]);
const text = z.array(z.union([words, z.strictObject({ list: z.array(words).min(1) })])).min(1);
const layoutSchema = z.strictObject({
  /** Keys in the order wanted; sections that are not named follow in their usual order. */
  order: z.array(z.string()).default([]),
  omit: z.array(z.string()).default([]),
  /** Other titles, by key. */
  titles: z.record(z.string(), words).default({}),
  /** Text that a section begins with, by key. */
  lead: z.record(z.string(), text).default({}),
  /** Sections of the site's own: after the one named, else at the end. */
  add: z
    .array(
      z.strictObject({
        key: z.string().regex(/^[a-z][a-z0-9-]*$/),
        title: words,
        after: z.string().optional(),
        text,
      }),
    )
    .default([]),
});
type Words = z.infer<typeof words>;

/** What a site changes in one reader's report, in all formats. */
export type SiteLayout = z.infer<typeof layoutSchema>;

/**
 * Reads the layout of one reader's report.
 * @param name of the file: `ward.yaml`
 * @throws CasetallyError `template-broken`, with the place and what was expected
 */
export function readLayout(name: string, source: string): { audience: Audience; layout: SiteLayout } {
  const refuse = (why: string): never => {
    throw new CasetallyError('template-broken', `Layout '${name}' does not work: ${why}.`);
  };
  const audience =
    audiences.find(one => name === `${one}.yaml`) ??
    refuse(`a layout is named after its reader: ${audiences.map(one => `${one}.yaml`).join(', ')}`);
  const read = layoutSchema.safeParse(yaml(source, refuse));
  if (!read.success) {
    const said = read.error.issues.map(issue => `${issue.path.join('.')}: ${issue.message}`);
    return refuse(said.join('; '));
  }
  const layout = read.data;
  const usual = sectionsFor[audience];
  const own = layout.add.map(({ key }) => key);
  const twice = own.find((key, index) => usual.includes(key) || own.indexOf(key) !== index);
  if (twice !== undefined) refuse(`add: there is a section '${twice}' already; choose another key`);
  const named = {
    order: layout.order,
    omit: layout.omit,
    titles: Object.keys(layout.titles),
    lead: Object.keys(layout.lead),
    'add.after': layout.add.flatMap(({ after }) => after ?? []),
  };
  layout.add.forEach(({ key, after }, index) => {
    if (own.slice(index).includes(after ?? ''))
      refuse(`add: '${key}' comes after '${after}', which has to be added before it`);
  });
  for (const [field, keys] of Object.entries(named))
    for (const key of keys)
      if (![...usual, ...own].includes(key))
        refuse(`${field}: there is no section '${key}'; there are ${[...usual, ...own].join(', ')}`);
  return { audience, layout };
}

function yaml(source: string, refuse: (why: string) => never): unknown {
  try {
    return parse(source, { maxAliasCount: 0 }) ?? {};
  } catch (error) {
    return refuse(error instanceof Error ? error.message.trim() : 'it is no YAML');
  }
}

/** The document as the site wants it. */
export function laidOut(document: ReportDocument, layout: SiteLayout): ReportDocument {
  const { language } = document;
  const say = (one: Words) => inLanguage(one, language);
  const nodes = (list: z.infer<typeof text>): Node[] =>
    list.map(entry =>
      typeof entry === 'object' && 'list' in entry && Array.isArray(entry.list)
        ? {
            kind: 'list',
            items: entry.list.map(one => ({ lines: [say(one)], strong: false, alert: false })),
          }
        : paragraph(say(entry as Words)),
    );
  const sections = document.sections
    .filter(({ key }) => !layout.omit.includes(key))
    .map((section): DocumentSection => {
      const { [section.key]: title } = layout.titles;
      const { [section.key]: lead = [] } = layout.lead;
      return {
        ...section,
        title: title === undefined ? section.title : say(title),
        nodes: [...nodes(lead), ...section.nodes],
      };
    });
  for (const { key, title, after, text: own } of layout.add) {
    const at = sections.findIndex(section => section.key === after);
    const added = { key, title: say(title), framed: false, page: false, nodes: nodes(own) };
    sections.splice(at < 0 ? sections.length : at + 1, 0, added);
  }
  // An added section goes where the one before it goes; its reader's usual order decides between equals.
  const place = (key: string): number => {
    const at = layout.order.indexOf(key);
    const after = layout.add.find(added => added.key === key)?.after;
    return at >= 0 ? at : after === undefined ? layout.order.length : place(after);
  };
  return { ...document, sections: sections.sort((a, b) => place(a.key) - place(b.key)) };
}

function inLanguage(one: Words, language: Language): string {
  if (typeof one === 'string') return one;
  return (
    one[language] ?? one[language.startsWith('en') ? 'en' : language] ?? one.en ?? Object.values(one)[0] ?? ''
  );
}
