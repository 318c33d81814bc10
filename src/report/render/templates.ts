import Handlebars from 'handlebars';
import { CasetallyError } from '../../findings/errors.js';
import type { Audience } from '../options.js';
import { readLayout, type SiteLayout } from '../view/site-layout.js';
import { markupHelpers } from './markup.js';
import { textHelpers } from './text.js';

/**
 * Sources by name: of a template the path under its folder without `.hbs`, such as `parts/table`; of a layout the
 * whole name, such as `ward.yaml`.
 */
export type TemplateSources = ReadonlyMap<string, string>;

/** Compiled templates, names in, text out; and what a site changes in the reports themselves. */
export interface Templates {
  readonly names: readonly string[];
  readonly layouts: Readonly<Partial<Record<Audience, SiteLayout>>>;
  render(name: string, context: object): string;
}

type Compiled = (context: object) => string;

/** A layout by a wrong name is refused, and not left out in silence. */
export const isLayout = (name: string) => /\.(?:ya?ml|json)$/.test(name);
/** Templates whose output is plain text; all others are markup and escape what they print. */
export const isText = (name: string) => name === 'text' || name.startsWith('text/');

/** Names of templates before there was one document a reader: each reader and format had its own. */
const FORMER = /^(?:record|referrer|ward|patient|shared)(?:\/|$)/;

/**
 * Compiles sources. Markup and text live in two environments that share nothing, so that the one place where escaping
 * is off (plain text) cannot be reached from markup.
 * Strict: a name that the document does not have, an unknown helper or partial is an error.
 */
export function compileTemplates(sources: TemplateSources): Templates {
  const entries = [...sources];
  const former = entries.find(([name]) => FORMER.test(name) && !isLayout(name));
  if (former) refuseFormer(former[0]);
  const of = (wanted: (name: string) => boolean) => entries.filter(([name]) => wanted(name));
  const markup = environment(
    of(name => !isText(name) && !isLayout(name)),
    markupHelpers,
    false,
  );
  const all = new Map([...markup, ...environment(of(isText), textHelpers, true)]);
  const layouts = of(isLayout).map(([name, source]) => readLayout(name, source));
  return {
    names: [...all.keys()],
    layouts: Object.fromEntries(layouts.map(({ audience, layout }) => [audience, layout])),
    render(name, context) {
      const template = all.get(name);
      if (!template) throw new CasetallyError('template-missing', `There is no template '${name}'.`);
      return broken(name, () => template(context));
    },
  };
}

/** A template of the last release is never left out in silence: what it adds would be missing from the reports. */
function refuseFormer(name: string): never {
  const [reader = 'record'] = name.split('/');
  const layout =
    reader === 'shared' ? 'record.yaml, referrer.yaml, ward.yaml or patient.yaml' : `${reader}.yaml`;
  throw new CasetallyError(
    'template-broken',
    `Template '${name}' is made for an earlier release, in which each reader and format had templates of its own. ` +
      `Put the sections that it adds, leaves out, orders or names into ${layout}, which changes all formats, and ` +
      "remove the file; the look of pages is in 'page', 'style' and 'parts/'. See templates/README.md",
  );
}

function environment(
  sources: readonly (readonly [string, string])[],
  helpers: Readonly<Record<string, Handlebars.HelperDelegate>>,
  plain: boolean,
): Map<string, Compiled> {
  const env = Handlebars.create();
  // `log` writes to the console.
  env.unregisterHelper('log');
  for (const [name, helper] of Object.entries(helpers)) env.registerHelper(name, helper);
  const options: CompileOptions = {
    strict: true,
    noEscape: plain,
    preventIndent: true,
    knownHelpersOnly: true,
    knownHelpers: Object.fromEntries(Object.keys(helpers).map(name => [name, true])),
  };
  const compiled = new Map<string, Compiled>();
  for (const [name, source] of sources) {
    const template = broken(name, () => env.compile(refuseRaw(name, source), options));
    env.registerPartial(name, template);
    compiled.set(name, template);
  }
  return compiled;
}

/** Raw output is refused before compiling: no template prints anything unescaped, however it is spelt. */
function refuseRaw(name: string, source: string): string {
  if (/\{\{\{|\{\{~?\s*&/.test(source) || hasRaw(Handlebars.parse(source)))
    throw new CasetallyError(
      'template-broken',
      `Template '${name}' prints raw text with three braces or an ampersand; use two braces.`,
    );
  return source;
}

/** True when any statement of the parsed template is unescaped: `{{~{x}~}}` is one, and looks like none. */
function hasRaw(node: unknown): boolean {
  if (Array.isArray(node)) return node.some(hasRaw);
  if (typeof node !== 'object' || node === null) return false;
  if ('type' in node && node.type === 'MustacheStatement' && 'escaped' in node && node.escaped === false)
    return true;
  return Object.values(node).some(hasRaw);
}

function broken<T>(name: string, work: () => T): T {
  try {
    return work();
  } catch (cause) {
    if (cause instanceof CasetallyError) throw cause;
    const why = cause instanceof Error ? cause.message : 'unknown error';
    throw new CasetallyError('template-broken', `Template '${name}' does not work: ${why}`, { cause });
  }
}
