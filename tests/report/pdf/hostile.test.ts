import { describe, expect, it } from 'vitest';
import { CasetallyError } from '../../../src/findings/errors.js';
import { audiences } from '../../../src/report/options.js';
import { createdAt } from '../../../src/report/pdf/created.js';
import { loadPdf } from '../../../src/report/pdf/load.js';
import { colors } from '../../../src/report/pdf/pen.js';
import { documentOf } from '../../../src/report/view/document.js';
import { assessment, fullStates } from '../../support/report/assess.js';
import { everyText } from '../../support/report/strings.js';
import { sampled } from '../../support/sampled.js';
import { caseOf, examples, full, lacking, pagesOf, pdfOf, poppler, tight } from './support.js';

const withText = (text: string) =>
  caseOf(text.slice(0, 20), everyText(full.record, text), record => assessment(record, fullStates));
const skipped = lacking === undefined ? '' : ` SKIPPED, ${lacking}`;

describe.skipIf(lacking !== undefined)(
  `text that means harm opens without a warning and is shown as written${skipped}`,
  () => {
    const texts: [what: string, text: string, shown?: string][] = [
      ['markup', '</rdf:li></x:xmpmeta><script>alert(1)</script> & <!-- ]]>'],
      ['PDF syntax', ') Tj ET Q endstream endobj << /JS (app.alert(1)) >> \\) \\'],
      ['template braces', '{{constructor}} {{{raw}}} {name} {n}'],
      ['turned text', 'left \u202etfel\u202c \u2066right\u2069', 'left \ufffdtfel\ufffd \ufffdright\ufffd'],
      ['hidden in a name', 'Ve\u200bla\u2060 Quin\ufefftanar', 'Vela Quintanar'],
      ['controls', 'a\u0007c\u001b[31mred\u007f', 'a\ufffdc\ufffd[31mred\ufffd'],
      ['signs that the font lacks', 'Li 中村 \u{1f9ea}', 'Li \ufffd\ufffd \ufffd'],
      ['Greek, Cyrillic, units', 'Ωμέγα Жанна µ · ² ³ × ⁹ ≥ ≤ → é ő ł'],
      ['right-to-left script', 'דנה'],
    ];
    const rows = audiences.flatMap(audience =>
      texts.map(([what, text, shown = text]) => [what, audience, text, shown] as const),
    );
    // Most is in the full record, which is always tried.
    const part = sampled('texts that mean harm', rows, 8, ([, audience]) => audience === 'record');
    it.each(part)('%s, for %s', async (_, audience, text, shown) => {
      const pdf = await pdfOf(withText(text), audience);
      const info = poppler('pdfinfo', [], pdf);
      expect(info).toMatch(/JavaScript: +no/);
      const marks = /[\u202a-\u202e]/g; // pdftotext writes marks of direction around such text
      expect(tight(pagesOf(pdf).join('').replace(marks, ''))).toContain(tight(shown));
      poppler('pdfinfo', ['-meta'], pdf);
    });

    it('runs a finding of 10,000 characters over pages and loses none', async () => {
      for (const long of ['x'.repeat(10_000), 'stent '.repeat(1_667).trim()]) {
        const record = { ...full.record, findings: [{ text: long }, { text: 'Last of all' }] };
        const one = caseOf('long', record, r => assessment(r, fullStates));
        const pdf = await pdfOf(one, 'record');
        const pages = pagesOf(pdf).map(tight);
        const letters = pages.join('').match(long.startsWith('x') ? /x/g : /stent/g)?.length ?? 0;
        expect(letters).toBeGreaterThanOrEqual(long.startsWith('x') ? 10_000 : 1_667);
        expect(pages.join('')).toContain('Lastofall');
        expect(pages.every(page => page.includes(tight(one.view().identity.line)))).toBe(true);
      }
    });

    it('cuts a name of 10,000 letters in the heads of pages and says it whole once', async () => {
      const name = 'Ab'.repeat(5_000);
      const one = caseOf('name', { ...full.record, patient: { ...full.record.patient, name } }, r =>
        assessment(r, fullStates),
      );
      const pages = pagesOf(await pdfOf(one, 'referrer')).map(tight);
      expect(pages.every(page => page.includes('…'))).toBe(true);
      expect(pages.join('').match(/Ab/g)?.length).toBeGreaterThanOrEqual(5_000);
    });
  },
);

describe('characters that the font lacks', () => {
  it('are reported, with their place', async () => {
    const { findings } = await loadPdf();
    const record = { ...full.record, patient: { ...full.record.patient, name: 'Li 中村 µ' } };
    expect(findings(record)).toMatchObject([
      {
        code: 'report.font-not-installed',
        severity: 'warning',
        path: 'patient.name',
        params: { characters: 'U+4E2D, U+6751' },
      },
    ]);
  });

  it.each([
    'Zdzisława µ · ² ³ × ⁹ ≥ ≤ → €',
    'Ωμέγα Жанна דנה سلام',
    'a\u200cb\ufe0f\u00ad',
    'e\u0301',
    'tab\tand\nline',
  ])('%j has none', async text => {
    expect((await loadPdf()).findings({ name: text })).toEqual([]);
  });

  it('are none in any example', async () => {
    const { findings } = await loadPdf();
    for (const one of examples) expect(findings(one.record)).toEqual([]);
  });
});

describe('the picture', () => {
  const draw = async (timelineSvg: string) =>
    (await loadPdf()).render(documentOf(full.view(), { audience: 'record', timelineSvg }), {
      created: createdAt(full.record),
    });
  const svg = (inside: string) =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10"><title>t</title>${inside}</svg>`;

  it.each([
    '<image href="x.png"/>',
    '<script>1</script>',
    '<rect fill="url(#other)" width="1" height="1"/>',
    '<rect width="a"/>',
  ])('is refused when it holds %s', async inside => {
    await expect(draw(svg(inside))).rejects.toThrow(CasetallyError);
  });

  it('stands in words for who cannot see it', async () => {
    const pdf = Buffer.from(await draw(svg('<desc>still inside: a stent</desc>'))).toString('latin1');
    expect(pdf).toContain('/Alt (t still inside: a stent)');
  });
});

describe('without colour', () => {
  // WCAG 2.2, success criterion 1.4.3 and the definitions of contrast ratio and relative luminance.
  const channel = (hex: string) => {
    const part = Number.parseInt(hex, 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  };
  const luminance = (color: string) =>
    0.2126 * channel(color.slice(1, 3)) +
    0.7152 * channel(color.slice(3, 5)) +
    0.0722 * channel(color.slice(5, 7));
  const ratio = (a: string, b: string) => {
    const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
    return (light + 0.05) / (dark + 0.05);
  };

  it.each([colors.ink, colors.soft, colors.lead])('%s stands out as clearly as WCAG asks', color => {
    for (const ground of ['#ffffff', colors.band, '#f5f5f5'])
      expect(ratio(color, ground)).toBeGreaterThan(4.5);
  });
});
