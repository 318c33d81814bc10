import { describe, expect, it } from 'vitest';
import { languages } from '../../../src/findings/languages.js';
import { wordsOf } from '../../../src/report/check/check.js';
import { audiences } from '../../../src/report/options.js';
import { createdAt } from '../../../src/report/pdf/created.js';
import { loadPdf } from '../../../src/report/pdf/load.js';
import { documentOf } from '../../../src/report/view/document.js';
import type { ReportView } from '../../../src/report/view/model.js';
import type { ReportDocument } from '../../../src/report/view/nodes.js';
import { sampled } from '../../support/sampled.js';
import {
  allCases as everyCase,
  examples as everyExample,
  lacking,
  type PdfCase,
  pagesOf,
  pdfOf,
  poppler,
  tight,
  withdrawn,
} from './support.js';

/* What is printed is read back with poppler, a PDF reader that shares nothing with the library that writes. */
const title = lacking === undefined ? 'read back with poppler' : `SKIPPED, ${lacking}`;

const examples = sampled('examples on paper', everyExample, 5);
const allCases = everyCase.filter(one => !everyExample.includes(one) || examples.includes(one));

/** What must be on paper for every reader, as the view says it. */
function mustHave(view: ReportView, audience: (typeof audiences)[number]): [string, string][] {
  const { identity, status, facts, patient } = view;
  const named: [string, string][] = [
    ['name', identity.name],
    ['date of birth', identity.birthDate],
    ['identifiers', identity.identifiers],
    ['status', status.line],
  ];
  const all = (what: string, lines: readonly string[]): [string, string][] => lines.map(line => [what, line]);
  if (audience === 'patient')
    return [
      ...named,
      ...all('notice', patient.notices),
      ...all('what was done, side, complications', patient.done),
      ...(patient.insideNone === '' ? [] : all('in situ', [patient.insideNone])),
      ...patient.inside.flatMap(item => all('in situ, retained', [item.name, ...item.lines])),
      ...all('aftercare', [...patient.tasks, ...patient.advice, ...patient.next]),
      ...all('allergies and more', patient.know),
      ...all('when to get help', [...patient.help, patient.call]),
      ...all('caution', patient.caution),
    ];
  const mine = {
    record: Object.values(view.tasks).flat(),
    referrer: view.tasks.referrer,
    ward: view.tasks.ward,
  };
  return [
    ...named,
    ...all('notice', status.notices),
    ...(facts.side.said ? all('side', facts.side.lines) : []),
    ...view.inside.flatMap(item => all('in situ, retained', [item.name, item.state])),
    ...(view.inside.length === 0 ? all('in situ', facts.inside.lines) : []),
    ...(audience === 'record' ? [] : all('complications', facts.complications.lines)),
    ...all('allergies', audience === 'record' ? [] : facts.allergies.lines),
    ...mine[audience].flatMap(task => all('aftercare', [task.what, ...task.when])),
    ...(audience === 'record'
      ? Object.values(view.section).flatMap(section => all('section', [section.title]))
      : []),
    ...all('caution', view.caution),
  ];
}

/** The facts of every section of the full report, each as its label and lines. */
function sectionFacts(view: ReportView): string[] {
  return documentOf(view, { audience: 'record' }).sections.flatMap(({ nodes }) =>
    nodes.flatMap(node => {
      if (node.kind === 'facts') return node.facts.map(fact => [fact.label, ...fact.lines].join(' '));
      if (node.kind !== 'table') return [];
      return node.rows.map(row => [row.head, ...row.cells].flatMap(cell => cell.lines).join(' '));
    }),
  );
}

describe.skipIf(lacking !== undefined)(`must-have facts, ${title}`, () => {
  // Every reader in one language; in the others the readers take turns, for the words are compared in `sameness.test.ts`.
  const rows = examples.flatMap((one, turn) =>
    languages.flatMap(language =>
      audiences
        .filter((_, index) => language === 'en-GB' || index === turn % audiences.length)
        .map(audience => [one.name, language, audience, one] as const),
    ),
  );
  it.each(rows)('%s, %s, %s', async (_name, language, audience, one) => {
    const view = one.view(language);
    const text = tight(pagesOf(await pdfOf(one, audience, { language })).join(''));
    const facts = mustHave(view, audience);
    expect(facts.length).toBeGreaterThan(8);
    expect(facts.filter(([, fact]) => !text.includes(tight(fact)))).toEqual([]);
  });
});

describe.skipIf(lacking !== undefined)(`whole facts on one page, ${title}`, () => {
  it.each(allCases.map(one => [one.name, one] as const))(
    '%s: no fact and no row is parted or lost',
    async (_, one) => {
      const pages = pagesOf(await pdfOf(one, 'record')).map(tight);
      const facts = sectionFacts(one.view()).map(tight);
      expect(facts.length).toBeGreaterThan(20);
      expect(facts.filter(fact => !pages.some(page => page.includes(fact)))).toEqual([]);
    },
  );
});

describe.skipIf(lacking !== undefined)(`every word of the document in its order, ${title}`, () => {
  /** Captions for those who cannot see the page are told, not drawn. */
  const drawn = (document: ReportDocument): ReportDocument => ({
    ...document,
    strip: { ...document.strip, caption: '' },
    sections: document.sections.map(section => ({
      ...section,
      nodes: section.nodes.map(node =>
        node.kind === 'table' && node.quiet ? { ...node, caption: '' } : node,
      ),
    })),
  });
  const rows = allCases.flatMap(one => audiences.map(audience => [one.name, audience, one] as const));
  it.each(rows)('%s, %s', async (_name, audience, one) => {
    const document = documentOf(one.view(), { audience });
    const pdf = (await loadPdf()).render(document, { created: createdAt(one.record) });
    const text = tight(pagesOf(pdf).join(''));
    const missing: string[] = [];
    let at = 0;
    for (const words of wordsOf(drawn(document)).map(tight)) {
      const found = text.indexOf(words, at);
      if (found < 0) missing.push(words);
      else at = found + words.length;
    }
    expect(missing).toEqual([]);
  });

  it.each(audiences)('%s: an entry of the outline for each section', async audience => {
    const document = documentOf(allCases[0]?.view() as ReportView, { audience });
    const pdf = (await loadPdf()).render(document, { created: new Date(0) });
    const text = Buffer.from(pdf).toString('latin1');
    const outline = [...text.matchAll(/\/Dest \[[^\]]* \/XYZ 0 [\d.]+ 0\][\s\S]*?\/Title (\([^)]*\))/g)];
    expect(outline.map(([, title]) => title)).toEqual(document.sections.map(({ title }) => `(${title})`));
  });
});

describe.skipIf(lacking !== undefined)(`every page, ${title}`, () => {
  const papers = (one: PdfCase) => (one === withdrawn ? (['A4', 'Letter'] as const) : (['A4'] as const));
  const rows = [...examples, withdrawn].flatMap(one =>
    papers(one).flatMap(paper => audiences.map(audience => [one.name, paper, audience, one] as const)),
  );
  it.each(rows)(
    '%s, %s, %s: who, how far to be relied on, which page',
    async (_name, paper, audience, one) => {
      const { identity, status } = one.view();
      const pdf = await pdfOf(one, audience, { paper });
      const pages = pagesOf(pdf);
      for (const [index, page] of pages.entries())
        for (const line of [
          identity.line,
          identity.identifiers,
          status.line,
          `Page ${index + 1} of ${pages.length}`,
        ])
          expect(tight(page), `page ${index + 1}: ${line}`).toContain(tight(line));
      const info = poppler('pdfinfo', [], pdf);
      // ISO 216 A4 and ANSI Letter, in points.
      expect(info).toMatch(
        paper === 'A4' ? /Page size: +595\.28 x 841\.89 pts/ : /Page size: +612 x 792 pts/,
      );
      expect(info).toContain(`Pages:           ${pages.length}`);
    },
  );

  it.each(examples.map(one => [one.name, one] as const))('%s: the referrer gets one page', async (_, one) => {
    for (const paper of ['A4', 'Letter'] as const)
      expect(pagesOf(await pdfOf(one, 'referrer', { paper }))).toHaveLength(1);
  });
});

describe.skipIf(lacking !== undefined)(`the file, ${title}`, () => {
  const one = everyExample[0] as PdfCase;

  it.each(languages)('%s: title, language, date of the record, tags', async language => {
    const pdf = await pdfOf(one, 'record', { language });
    const info = poppler('pdfinfo', ['-isodates'], pdf);
    const { identity, title: name, status } = one.view(language);
    expect(info).toContain(`Title:           ${identity.line}: ${name} (${status.line})`);
    expect(info).toMatch(/Tagged: +yes/);
    expect(info).toMatch(/JavaScript: +no/);
    const signed = new Date(one.record.report.signedAt?.epoch ?? 0).toISOString().replace('.000Z', 'Z');
    expect(info).toContain(`CreationDate:    ${signed}`);
    expect(Buffer.from(pdf).toString('latin1')).toContain(`/Lang (${language})`);
  });

  it('embeds its fonts, as parts of them', async () => {
    const fonts = poppler('pdffonts', [], await pdfOf(one, 'record'))
      .trim()
      .split('\n')
      .slice(2);
    expect(fonts).toHaveLength(2);
    for (const font of fonts)
      expect(font).toMatch(/^[A-Z]{6}\+DejaVuSansCondensed\S* +CID TrueType +Identity-H +yes yes yes/);
  });

  it('tells a screen reader headings, tables with heads, lists, and the picture in words', async () => {
    const tags = poppler('pdfinfo', ['-struct-text'], await pdfOf(one, 'record'));
    for (const tag of ['Document', 'H1', 'H2', 'Table', 'THead', 'TH', 'TD', 'Caption', 'Figure'])
      expect(tags).toMatch(new RegExp(`^ *${tag}\\b`, 'm'));
    expect(tags).toMatch(/TH[^\n]*\n *\/Scope \/Column/);
    expect(tags).toMatch(/TH[^\n]*\n *\/Scope \/Row/);
    expect(poppler('pdfinfo', ['-struct'], await pdfOf(one, 'patient'))).toMatch(
      /^ *L\b[\s\S]*LI\b[\s\S]*Lbl\b[\s\S]*LBody\b/m,
    );
  });
});
