import Handlebars from 'handlebars';
import { CasetallyError } from '../../findings/errors.js';
import type { Lexicon } from '../../findings/say.js';
import { markupHelpers } from './markup.js';
import { textHelpers } from './text.js';

/** Template sources by name: the path under the folder without `.hbs`, such as `record/html`. */
export type TemplateSources = ReadonlyMap<string, string>;

/** What a template can reach beside the view. */
export interface RenderData {
  readonly lexicon: Lexicon;
  /** SVG of the timeline, already checked; empty for none. */
  readonly timeline: string;
  /** SVG of the dose panel, already checked; empty for none. */
  readonly dose: string;
  readonly pictures: readonly EmbeddedPicture[];
}

/** A stored picture as a page holds it. */
export interface EmbeddedPicture {
  readonly caption: string;
  readonly alt: string;
  /** Of the picture, in pixels. */
  readonly width: number;
  readonly height: number;
  /** The picture itself, as a data address. */
  readonly src: string;
}

/** Compiled templates: names in, text out. */
export interface Templates {
  readonly names: readonly string[];
  render(name: string, view: object, data: RenderData): string;
}

type Compiled = (context: object, options: { data: RenderData }) => string;

/** Templates whose output is plain text; all others are markup and escape what they print. */
const isText = (name: string) => name.startsWith('shared/text/') || name.endsWith('/text');

/**
 * Compiles template sources. Markup and text live in two environments that share nothing, so that
 * the one place where escaping is off (plain text) cannot be reached from markup.
 * Strict: a name that the view does not hold, an unknown helper or partial is an error.
 */
export function compileTemplates(sources: TemplateSources): Templates {
  const entries = [...sources];
  const markup = environment(
    entries.filter(([name]) => !isText(name)),
    markupHelpers,
    false,
  );
  const text = environment(
    entries.filter(([name]) => isText(name)),
    textHelpers,
    true,
  );
  const all = new Map([...markup, ...text]);
  return {
    names: [...all.keys()],
    render(name, view, data) {
      const template = all.get(name);
      if (!template) throw new CasetallyError('template-missing', `There is no template '${name}'.`);
      return broken(name, () => template(view, { data }));
    },
  };
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
