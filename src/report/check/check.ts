import { CasetallyError } from '../../findings/errors.js';
import { type Finding, finding } from '../../findings/finding.js';
import { type Audience, audiences, formats } from '../options.js';
import { COLUMNS } from '../render/layout.js';
import { renderNarrative, renderReport } from '../render/render.js';
import {
  compileTemplates,
  isLayout,
  isText,
  type TemplateSources,
  type Templates,
} from '../render/templates.js';
import { width } from '../render/wrap.js';
import { documentOf } from '../view/document.js';
import type { ReportView } from '../view/model.js';
import type { Node, ReportDocument } from '../view/nodes.js';
import { laidOut } from '../view/site-layout.js';
import { hostileDocument } from './hostile.js';
import { dropped, markedDocument } from './marks.js';
import { outlineOf } from './outline.js';
import { partsOf } from './parts.js';

/** A case to try templates on: its view in one language. */
export interface TrialCase {
  readonly name: string;
  readonly view: ReportView;
}

/** A report, or the narratives of a FHIR Composition. */
interface Target {
  readonly audience: Audience;
  readonly format: (typeof targetFormats)[number] | 'composition';
}

const targetFormats = [...formats, 'pdf'] as const;
const targets: readonly Target[] = [
  ...audiences.flatMap(audience => targetFormats.map((format): Target => ({ audience, format }))),
  { audience: 'record', format: 'composition' },
];

/** True when a file of the site can change what a target shows. */
function concerns(name: string, { audience, format }: Target): boolean {
  if (isLayout(name)) return name.startsWith(audience);
  if (isText(name)) return format === 'text';
  if (name === 'page' || name === 'style') return format === 'html';
  return format === 'html' || format === 'xhtml' || format === 'composition';
}

interface Fault {
  readonly code: 'template.broken' | 'template.drops' | 'template.unsafe';
  readonly target: Target;
  readonly trial: TrialCase;
  readonly what: string;
}

/**
 * Tries a site's own templates and layouts over the shipped ones on whole cases: every reader and format, and once
 * more with a hostile record. Says what is dropped, unsafe or broken, each with the file that does it. Pure.
 * @param own the site's files alone
 */
export function checkTemplates(
  shipped: TemplateSources,
  own: TemplateSources,
  trials: readonly TrialCase[],
): Finding[] {
  const unsound = [...own].flatMap(([name, source]) => soundness(name, source));
  if (unsound.length > 0) return unsound;
  const all = new Map([...shipped, ...own]);
  const called = new Set([...all].flatMap(([name, source]) => (isLayout(name) ? [] : partsOf(source).names)));
  const unused = [...own.keys()].filter(name => !shipped.has(name) && !isLayout(name) && !called.has(name));
  const faults = new Map<string, Fault>();
  const concerned = targets.filter(target => [...own.keys()].some(name => concerns(name, target)));
  for (const fault of faultsOf(compileTemplates(all), concerned, trials)) {
    const key = JSON.stringify([fault.code, fault.target, fault.what]);
    if (!faults.has(key)) faults.set(key, fault);
  }
  return [
    ...[...faults.values()].flatMap(fault => named(fault, shipped, own)),
    ...unused.map(name => finding('template.unused', fileOf(name), { name })),
  ];
}

const fileOf = (name: string) => (isLayout(name) ? name : `${name}.hbs`);

/** What can be said of one file by reading it. */
function soundness(name: string, source: string): Finding[] {
  try {
    compileTemplates(new Map([[name, source]]));
    if (isLayout(name) || !partsOf(source).worked) return [];
    const why = `Template '${name}' works out the name of a partial; only the helper node may.`;
    return [finding('template.broken', fileOf(name), { why })];
  } catch (error) {
    return [finding('template.broken', fileOf(name), { why: reasonOf(error) })];
  }
}

const reasonOf = (error: unknown) => {
  if (error instanceof CasetallyError) return error.message;
  throw error;
};

function faultsOf(templates: Templates, list: readonly Target[], trials: readonly TrialCase[]): Fault[] {
  const seen = new Set<string>();
  return trials.flatMap(trial => {
    // Each case in one language and one case in each: templates choose by what a case holds and by language.
    const attacked = !seen.has(trial.name) || trial.name === trials[0]?.name;
    seen.add(trial.name);
    return list.flatMap(target => {
      const fault = (code: Fault['code'], what: string): Fault => ({ code, target, trial, what });
      try {
        const document = documentOf(trial.view, { audience: target.audience });
        return [
          ...lost(document, templates, target).map(what => fault('template.drops', what)),
          ...(attacked ? unsafe(document, templates, target) : []).map(what =>
            fault('template.unsafe', what),
          ),
        ];
      } catch (error) {
        return [fault('template.broken', reasonOf(error))];
      }
    });
  });
}

function lost(document: ReportDocument, templates: Templates, target: Target): string[] {
  const marked = markedDocument(document);
  const made = rendered(marked.document, templates, target);
  const isMarkup = target.format !== 'text' && target.format !== 'pdf';
  return dropped(isMarkup ? outlineOf(made, false).text : made, marked.marks);
}

function unsafe(document: ReportDocument, templates: Templates, target: Target): string[] {
  if (target.format === 'pdf') return [];
  const made = rendered(hostileDocument(document), templates, target);
  if (target.format === 'text') return textFaults(made);
  const page = target.format === 'html';
  const hostile = outlineOf(made, page);
  const plain = outlineOf(rendered(document, templates, target), page);
  const extra = [
    ...[...hostile.elements].filter(name => !plain.elements.has(name)),
    ...[...hostile.attributes].filter(name => !plain.attributes.has(name)),
  ];
  return [
    ...new Set([
      ...plain.faults,
      ...hostile.faults,
      ...extra.map(name => `text of the record becomes markup (${name})`),
    ]),
  ];
}

function textFaults(text: string): string[] {
  const lines = text.split('\n');
  return [
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that there are none is what is asked
    ...(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/.test(text)
      ? ['it has control characters']
      : []),
    ...(lines.some(line => width(line) > COLUMNS) ? [`it has lines of more than ${COLUMNS} columns`] : []),
  ];
}

/** What the site's files make of a document; of a PDF its words, for it has no templates. */
function rendered(usual: ReportDocument, templates: Templates, { audience, format }: Target): string {
  const layout = templates.layouts[audience];
  const document = layout ? laidOut(usual, layout) : usual;
  if (format === 'pdf') return wordsOf(document).join('\n');
  if (format !== 'composition') return renderReport(document, templates, format);
  const { header, sections } = renderNarrative(document, templates);
  return `<div>${[header, ...sections.map(section => section.div)].join('')}</div>`;
}

/** All that a document says, in order; of drawings the captions. */
export function wordsOf({ above, title, strip, callout, sections, caution }: ReportDocument): string[] {
  return [
    above,
    title,
    strip.caption,
    ...strip.rows.flat().flatMap(({ label, value }) => [label, value]),
    ...callout,
    ...sections.flatMap(section => [section.title, ...section.nodes.flatMap(nodeWords)]),
    ...caution,
  ];
}

function nodeWords(node: Node): readonly string[] {
  switch (node.kind) {
    case 'facts':
      return [node.caption, ...node.facts.flatMap(({ label, lines }) => [label, ...lines])];
    case 'table':
      return [
        node.caption,
        ...node.columns,
        ...node.rows.flatMap(({ head, cells }) => [head, ...cells].flatMap(cell => cell.lines)),
      ];
    case 'list':
      return node.items.flatMap(({ lines }) => lines);
    case 'paragraph':
      return node.lines;
    case 'figure':
      return [node.caption];
    case 'gallery':
      return [...node.pictures.map(({ caption }) => caption), node.note];
  }
}

/** The fault as findings, one for each file of the site that makes it by itself; else for all that it can come from. */
function named(fault: Fault, shipped: TemplateSources, own: TemplateSources): Finding[] {
  const mine = [...own.keys()].filter(name => concerns(name, fault.target));
  if (mine.length === 1) return mine.map(name => findingOf(fault, fileOf(name)));
  const alone = mine.filter(name => {
    const templates = compileTemplates(new Map([...shipped, [name, own.get(name) ?? '']]));
    return faultsOf(templates, [fault.target], [fault.trial]).some(
      found => found.code === fault.code && found.what === fault.what,
    );
  });
  return (alone.length > 0 ? alone : mine).map(name => findingOf(fault, fileOf(name)));
}

function findingOf({ code, target, trial, what }: Fault, file: string): Finding {
  const { audience, format } = target;
  if (code === 'template.broken') return finding(code, file, { why: what });
  if (code === 'template.unsafe') return finding(code, file, { audience, format, why: what });
  const { language } = trial.view;
  return finding(code, file, { audience, format, language, example: trial.name, fact: what });
}
