import { spawnSync } from 'node:child_process';
import { defaultLimits } from '../../../src/clinical/default-limits.js';
import { timelineSvg } from '../../../src/devices/timeline/svg.js';
import { timelineOf } from '../../../src/devices/timeline/timeline.js';
import type { Language } from '../../../src/findings/languages.js';
import { checkCase } from '../../../src/pipeline/check.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import type { Audience } from '../../../src/report/options.js';
import { createdAt } from '../../../src/report/pdf/created.js';
import { loadPdf } from '../../../src/report/pdf/load.js';
import type { PdfOptions } from '../../../src/report/pdf/options.js';
import { dosePanelSvg } from '../../../src/report/pictures/dose.js';
import { documentOf } from '../../../src/report/view/document.js';
import type { ReportView } from '../../../src/report/view/model.js';
import { buildView } from '../../../src/report/view/view.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { exampleFiles, exampleText } from '../../support/examples.js';
import { assessment, fullStates, read } from '../../support/report/assess.js';
import { bareCase, fullCase, noneCase, notDoneCase } from '../../support/report/cases.js';
import { picture } from '../../support/report/picture.js';

/** A case with all that a PDF of it is made from. */
export interface PdfCase {
  readonly name: string;
  readonly record: CaseRecord;
  view(language?: Language): ReportView;
  readonly timeline: string;
}

export function ownCase(name: string, text: string, states: Parameters<typeof assessment>[1] = {}): PdfCase {
  return caseOf(name, read(text), record => assessment(record, states));
}

/** A record as it is, for records that no file could give. */
export function caseOf(
  name: string,
  record: CaseRecord,
  assessed: (record: CaseRecord) => ReturnType<typeof assessment>,
): PdfCase {
  const done = assessed(record);
  return {
    name,
    record,
    view: (language = 'en-GB') => buildView(record, done, { language }),
    timeline: timelineSvg(timelineOf(record, done.devices, done.tally)),
  };
}

export const examples: readonly PdfCase[] = exampleFiles.map(file => {
  const { record, assessment: done } = checkCase(exampleText(file), unconfiguredSite);
  if (!record || !done) throw new Error(`${file} cannot be read`);
  return caseOf(file, record, () => done);
});

export const full = ownCase('full', fullCase, fullStates);
export const withdrawn = ownCase(
  'withdrawn',
  fullCase.replace('status: amended', 'status: withdrawn'),
  fullStates,
);
export const bare = ownCase('bare', bareCase);

export const allCases: readonly PdfCase[] = [
  full,
  withdrawn,
  bare,
  ownCase('none', noneCase),
  ownCase('not done', notDoneCase),
  ...examples,
];

interface Print {
  readonly language?: Language;
  readonly paper?: NonNullable<PdfOptions['paper']>;
}

const printed = new WeakMap<PdfCase, Map<string, Promise<Uint8Array>>>();

/** The report with everything that it can show, made once: of images that name no file none is shown. */
export function pdfOf(one: PdfCase, audience: Audience, options: Print = {}): Promise<Uint8Array> {
  const { language = 'en-GB', paper = 'A4' } = options;
  const known = printed.get(one) ?? new Map<string, Promise<Uint8Array>>();
  printed.set(one, known);
  const name = `${audience} ${language} ${paper}`;
  const pdf = known.get(name) ?? print(one, audience, { language, paper });
  known.set(name, pdf);
  return pdf;
}

async function print(one: PdfCase, audience: Audience, { language, paper }: Required<Print>) {
  const document = documentOf(one.view(language), {
    audience,
    timelineSvg: one.timeline,
    doseSvg: dosePanelSvg(one.record, defaultLimits.radiation, language),
    pictures: new Map((one.record.images ?? []).map((_, index) => [`images[${index}]`, picture])),
  });
  return (await loadPdf()).render(document, { created: createdAt(one.record), paper });
}

type Tool = 'pdftotext' | 'pdfinfo' | 'pdffonts' | 'pdfimages' | 'pdftoppm';

/** Why poppler's programs cannot judge here, or undefined when they can. */
const reader: Tool = 'pdftotext';
export const lacking = spawnSync(reader, ['-v'], { stdio: 'ignore' }).error
  ? 'pdftotext and pdfinfo are not installed (package poppler-utils)'
  : undefined;

/** Runs one of poppler's programs on a PDF; anything it warns of is a fault of the PDF. */
export function poppler(tool: Tool, args: readonly string[], pdf: Uint8Array): string {
  const input = tool === 'pdftotext' ? [...args, '-', '-'] : [...args, '-'];
  const { stdout, stderr, status } = spawnSync(tool, input, {
    input: pdf,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (status !== 0 || stderr !== '') throw new Error(`${tool}: ${status} ${stderr}`);
  return stdout;
}

const pages = new WeakMap<Uint8Array, string[]>();

/** The words of each page in the order in which they are drawn. */
export function pagesOf(pdf: Uint8Array): string[] {
  const known =
    pages.get(pdf) ?? poppler('pdftotext', ['-raw', '-enc', 'UTF-8'], pdf).split('\f').slice(0, -1);
  pages.set(pdf, known);
  return known;
}

/** Text without any space: where lines end is not what is asked. */
export const tight = (text: string): string => text.replace(/\s+/g, '');
