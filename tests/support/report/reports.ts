import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { assess } from '../../../src/clinical/assess.js';
import { timelineSvg } from '../../../src/devices/timeline/svg.js';
import { timelineOf } from '../../../src/devices/timeline/timeline.js';
import type { Language } from '../../../src/findings/languages.js';
import type { Audience, Format } from '../../../src/report/options.js';
import { loadTemplates } from '../../../src/report/render/load.js';
import { renderReport } from '../../../src/report/render/render.js';
import { type DocumentOptions, documentOf } from '../../../src/report/view/document.js';
import type { ReportView } from '../../../src/report/view/model.js';
import { buildView } from '../../../src/report/view/view.js';
import { assessment, fullStates, read } from './assess.js';
import { bareCase, fullCase, noneCase, notDoneCase } from './cases.js';

export const templatesFolder = fileURLToPath(new URL('../../../templates/', import.meta.url));
export const templates = loadTemplates(templatesFolder);

const examples = new URL('../../../examples/', import.meta.url);

/** Every whole example case of the project, by name. */
const exampleCases: readonly (readonly [string, string])[] = readdirSync(examples)
  .filter(name => /\.(yaml|json)$/.test(name) && !['site.yaml', 'mistaken.yaml'].includes(name))
  .map(name => [name, readFileSync(new URL(name, examples), 'utf8')] as const)
  .filter(([, text]) => /casetally"?:/.test(text));

const own = { full: fullCase, bare: bareCase, none: noneCase, 'not done': notDoneCase };

/** Views of the tests' own cases and of every example. */
export function allViews(language: Language = 'en-GB'): readonly (readonly [string, ReportView])[] {
  return [
    ...Object.entries(own).map(
      ([name, text]) => [name, viewOf(text, name === 'full' ? fullStates : {}, language)] as const,
    ),
    ...exampleCases.map(([name, text]) => {
      const record = read(text);
      return [name, buildView(record, assess(record), { language })] as const;
    }),
  ];
}

/** The picture of the timeline of every example. */
export function allTimelines(language: Language = 'en-GB'): readonly (readonly [string, string])[] {
  return exampleCases.map(([name, text]) => {
    const record = read(text);
    const { devices, tally } = assess(record);
    return [name, timelineSvg(timelineOf(record, devices, tally, language))] as const;
  });
}

export function viewOf(
  text: string,
  states: Parameters<typeof assessment>[1] = {},
  language: Language = 'en-GB',
): ReportView {
  const record = read(text);
  return buildView(record, assessment(record, states), { language });
}

export function render(view: ReportView, audience: Audience, format: Format): string {
  return renderWith(view, { audience, format });
}

/** The report with what it shows beside its words. */
export function renderWith(
  view: ReportView,
  { format, ...options }: DocumentOptions & { readonly format: Format },
): string {
  return renderReport(documentOf(view, options), templates, format);
}

/** Words of a text with single spaces, for looking sentences up across line breaks. */
export const flat = (text: string): string => text.replace(/\s+/g, ' ');
