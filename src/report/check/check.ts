import { CasetallyError } from '../../findings/errors.js';
import { type Finding, finding } from '../../findings/finding.js';
import { clean } from '../characters.js';
import { type Audience, audiences, type Format, formats } from '../options.js';
import { COLUMNS } from '../render/layout.js';
import { renderNarrative } from '../render/narrative.js';
import { renderReport } from '../render/render.js';
import { compileTemplates, type TemplateSources, type Templates } from '../render/templates.js';
import { width } from '../render/wrap.js';
import type { ReportView } from '../view/model.js';
import { hostileView } from './hostile.js';
import { dropped, markedView } from './marks.js';
import { outlineOf } from './outline.js';
import { partsOf, takingPart } from './parts.js';

/** A case to try templates on: its view in one language. */
export interface TrialCase {
  readonly name: string;
  readonly view: ReportView;
}

/** A report, or the narratives of a FHIR Composition. */
type Target = { readonly audience: Audience; readonly format: Format | 'composition' };

const targets: readonly Target[] = [
  ...audiences.flatMap(audience => formats.map((format): Target => ({ audience, format }))),
  { audience: 'record', format: 'composition' },
];

/** Templates that one target starts from. */
const roots = ({ audience, format }: Target): readonly string[] =>
  format === 'composition'
    ? ['shared/narrative/header', 'shared/narrative/section']
    : [`${audience}/${format}`];

/** All templates that take part in a target. */
const partsIn = (target: Target, sources: TemplateSources): string[] => [
  ...new Set(roots(target).flatMap(root => [...takingPart(root, sources)])),
];

interface Fault {
  readonly code: 'template.broken' | 'template.drops' | 'template.unsafe';
  readonly target: Target;
  readonly trial: TrialCase;
  readonly what: string;
}

/**
 * Tries a site's own templates over the shipped ones on whole cases: every reader and format, and once more with a
 * hostile record. Says what is dropped, unsafe or broken, each with the file that does it. Pure.
 * @param own the site's templates alone
 */
export function checkTemplates(
  shipped: TemplateSources,
  own: TemplateSources,
  trials: readonly TrialCase[],
): Finding[] {
  const unsound = [...own].flatMap(([name, source]) => soundness(name, source));
  if (unsound.length > 0) return unsound;
  const all = new Map([...shipped, ...own]);
  const called = new Set([...all.values()].flatMap(source => partsOf(source).names));
  const unused = [...own.keys()].filter(name => !shipped.has(name) && !called.has(name));
  const faults = new Map<string, Fault>();
  const concerned = targets.filter(target => partsIn(target, all).some(name => own.has(name)));
  for (const fault of faultsOf(compileTemplates(all), concerned, trials)) {
    const key = JSON.stringify([fault.code, fault.target, fault.what]);
    if (!faults.has(key)) faults.set(key, fault);
  }
  return [
    ...[...faults.values()].flatMap(fault => named(fault, shipped, own)),
    ...unused.map(name => finding('template.unused', fileOf(name), { name })),
  ];
}

const fileOf = (name: string) => `${name}.hbs`;

/** What can be said of one file by reading it. */
function soundness(name: string, source: string): Finding[] {
  try {
    compileTemplates(new Map([[name, source]]));
    if (!partsOf(source).worked) return [];
    const why = `Template '${name}' works out the name of a partial; only the helper block may.`;
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
        return [
          ...lost(templates, target, trial).map(what => fault('template.drops', what)),
          ...(attacked ? unsafe(templates, target, trial) : []).map(what => fault('template.unsafe', what)),
        ];
      } catch (error) {
        return [fault('template.broken', reasonOf(error))];
      }
    });
  });
}

function lost(templates: Templates, target: Target, { view }: TrialCase): string[] {
  const marked = markedView(view, target.audience);
  const made = rendered(clean(marked.view), templates, target);
  return dropped(target.format === 'text' ? made : outlineOf(made, false).text, marked.marks);
}

function unsafe(templates: Templates, target: Target, { view }: TrialCase): string[] {
  const made = rendered(hostileView(view), templates, target);
  if (target.format === 'text') return textFaults(made);
  const page = target.format === 'html';
  const hostile = outlineOf(made, page);
  const plain = outlineOf(rendered(view, templates, target), page);
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

function rendered(view: ReportView, templates: Templates, { audience, format }: Target): string {
  if (format !== 'composition') return renderReport(view, templates, { audience, format });
  const { header, sections } = renderNarrative(view, templates);
  return `<div>${[header, ...sections.map(section => section.div)].join('')}</div>`;
}

/** The fault as findings, one for each file of the site that makes it by itself; else for all that take part. */
function named(fault: Fault, shipped: TemplateSources, own: TemplateSources): Finding[] {
  const all = new Map([...shipped, ...own]);
  const mine = partsIn(fault.target, all).filter(name => own.has(name));
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
