import { type Lexicon, lexicon } from '../../findings/say.js';
import { clean } from '../characters.js';
import type { Audience } from '../options.js';
import { type StoredPictures, shownPictures } from '../pictures/stored.js';
import { readPicture } from '../pictures/svg.js';
import type { ReportView, SectionKey, Status } from './model.js';
import type { DocumentSection, Node, ReportDocument, StripFact } from './nodes.js';
import { patientSections, referrerSections, wardSections } from './readers.js';
import { recordSections } from './record.js';
import { laidOut, type SiteLayout } from './site-layout.js';

export interface DocumentOptions {
  readonly audience: Audience;
  /** SVG of the device timeline and of the dose panel, for the full report; empty for none. */
  readonly timelineSvg?: string;
  readonly doseSvg?: string;
  /** Stored pictures, for the full report; other readers get none. */
  readonly pictures?: StoredPictures;
  /** Errors that stand: the report is then marked as a draft, on its first screen and in the head of every page. */
  readonly errors?: number;
  /** What the site changes in it. */
  readonly layout?: SiteLayout | undefined;
}

/** One reader's report, made once for all formats. Pure: same view and options, same document. */
export function documentOf(view: ReportView, options: DocumentOptions): ReportDocument {
  const { audience, layout, errors = 0 } = options;
  const { language, identity } = view;
  const words = lexicon(language);
  const status = errors > 0 ? draftStatus(view.status, words, errors) : view.status;
  const { say } = words;
  const forPatient = audience === 'patient';
  const title = forPatient ? say('patient.title') : view.title;
  const kind = say(`page.audience.${audience}`);
  const report = `${say('label.caseId')} ${view.caseId}`;
  const made: ReportDocument = {
    audience,
    language,
    title,
    above: forPatient ? '' : [kind, view.place].filter(part => part !== '').join(' · '),
    name: `${identity.line}: ${title} (${status.line})`,
    about: `${kind}, ${report}`,
    running: {
      person: identity.line,
      identifiers: identity.identifiers,
      report: `${kind} · ${report} · ${view.date}`,
    },
    status,
    strip: { caption: say('table.patient'), rows: pairs(strip({ ...view, status }, words, forPatient)) },
    callout: forPatient ? view.patient.notices : status.notices,
    sections: sectionsOf(view, words, options),
    caution: forPatient ? view.patient.caution : view.caution,
  };
  return clean(layout ? laidOut(made, layout) : made);
}

/** A report with errors is a draft, whatever its author called it: nobody may rely on it. */
function draftStatus(status: Status, { plural }: Lexicon, errors: number): Status {
  const n = String(errors);
  return {
    ...status,
    line: plural('draft.line', n),
    notices: [plural('draft.notice', n), ...status.notices],
    caution: true,
  };
}

function sectionsOf(view: ReportView, words: Lexicon, options: DocumentOptions): DocumentSection[] {
  switch (options.audience) {
    case 'record':
      return recordSections(view, words, key => figures(key, view, words, options));
    case 'referrer':
      return referrerSections(view, words);
    case 'ward':
      return wardSections(view, words);
    case 'patient':
      return patientSections(view, words);
  }
}

/** Pictures of the full report, each after what it shows. */
function figures(key: SectionKey, view: ReportView, { say }: Lexicon, options: DocumentOptions): Node[] {
  const drawing = (caption: string, svg: string | undefined, broad: boolean): Node[] => {
    if (svg === undefined || svg === '') return [];
    const picture = readPicture(svg);
    return [{ kind: 'figure', caption, alt: picture.words, picture, broad }];
  };
  if (key === 'technique') return drawing(say('page.timeline'), options.timelineSvg, true);
  if (key === 'dose') return drawing(say('page.dose'), options.doseSvg, false);
  const pictures = key === 'images' ? shownPictures(view, options.pictures) : [];
  return pictures.length > 0 ? [{ kind: 'gallery', pictures, note: say('picture.note') }] : [];
}

function strip(
  { identity, status, ...view }: ReportView,
  { say }: Lexicon,
  forPatient: boolean,
): StripFact[] {
  const entry = (key: string, label: string, value: string, strong = false) => ({
    key,
    label,
    value,
    strong,
  });
  const name = entry('name', say('label.name'), identity.name, true);
  const birthDate = entry('birthDate', say('label.birthDate'), identity.birthDate);
  const signature = entry('signature', say('label.signature'), status.signature);
  if (forPatient)
    return [
      name,
      birthDate,
      entry('date', say('patient.date'), view.date),
      entry('identifiers', say('patient.identifiers'), identity.identifiers),
      entry('status', say('patient.report'), status.line),
      signature,
    ];
  return [
    name,
    birthDate,
    entry('identifiers', say('label.identifiers'), identity.identifiers),
    entry('sex', say('label.sex'), identity.sex),
    entry('date', say('label.date'), view.date),
    entry('caseId', say('label.caseId'), view.caseId),
    entry('status', say('label.status'), status.line, true),
    signature,
  ];
}

function pairs<T>(list: readonly T[]): T[][] {
  return Array.from({ length: Math.ceil(list.length / 2) }, (_, i) => list.slice(2 * i, 2 * i + 2));
}
