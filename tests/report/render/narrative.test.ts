import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CasetallyError } from '../../../src/findings/errors.js';
import { audiences } from '../../../src/report/options.js';
import { narrativeDiv } from '../../../src/report/render/narrative.js';
import { renderNarrative, renderReport } from '../../../src/report/render/render.js';
import { documentOf } from '../../../src/report/view/document.js';
import { recordKeys } from '../../../src/report/view/record.js';
import { buildView } from '../../../src/report/view/view.js';
import { assessment, fullStates, read } from '../../support/report/assess.js';
import { fullCase } from '../../support/report/cases.js';
import { allowedAttributes, allowedElements, narrativeFaults } from '../../support/report/narrative-rules.js';
import { allViews, render, templates } from '../../support/report/reports.js';
import { everyText } from '../../support/report/strings.js';
import { runs } from '../../support/sampled.js';

describe('the rules as the standard publishes them', () => {
  it('were found in the package', () => {
    expect(allowedElements.size).toBe(48);
    expect(allowedElements.has('table')).toBe(true);
    expect(allowedElements.has('script')).toBe(false);
    expect(allowedAttributes.has('scope')).toBe(true);
    expect(allowedAttributes.has('onclick')).toBe(false);
  });
  it('catch what they should', () => {
    const div = (inner: string) => `<div xmlns="http://www.w3.org/1999/xhtml">${inner}</div>`;
    expect(narrativeFaults(div('<p>a</p>'))).toEqual([]);
    expect(narrativeFaults(div(' \n'))).toEqual(['no words (txt-2)']);
    expect(narrativeFaults(div('<script>a</script>'))).toEqual(['element script']);
    expect(narrativeFaults(div('<p onclick="a">a</p>'))).toEqual(['attribute onclick']);
    expect(narrativeFaults('<div>a</div>')).toEqual(['div is not in the XHTML namespace']);
    expect(() => narrativeFaults(div('<p>&nbsp;</p>'))).toThrow();
  });
});

describe.each(allViews())('narrative of %s', (_, view) => {
  const document = documentOf(view, { audience: 'record' });
  const narrative = renderNarrative(document, templates);
  const whole = renderReport(document, templates, 'xhtml');
  it('keeps the rules in the whole, the header and every section', () => {
    expect(narrativeFaults(whole)).toEqual([]);
    expect(narrativeFaults(narrative.header)).toEqual([]);
    for (const section of narrative.sections) expect(narrativeFaults(section.div), section.key).toEqual([]);
  });
  it('has every section once, in order', () => {
    const keys = narrative.sections.map(s => s.key);
    expect(keys).toEqual(recordKeys.filter(key => keys.includes(key)));
    // Without an event there is no course to tell, most cases know of everything where it is, and some lack nothing.
    const missing = recordKeys.filter(key => !keys.includes(key));
    expect(missing.filter(key => !['done', 'whereabouts', 'absent'].includes(key))).toEqual([]);
  });
  it('says in the sections what it says in the whole', () => {
    for (const section of narrative.sections) {
      const inner = section.div.replace(/^<div[^>]*>/, '').replace(/<\/div>$/, '');
      expect(whole).toContain(inner);
    }
  });
  it.each(audiences)('keeps the rules for %s', audience => {
    expect(narrativeFaults(render(view, audience, 'xhtml'))).toEqual([]);
  });
});

describe('any text whatever', () => {
  const record = read(fullCase);
  it('parses as XML and keeps the rules', () => {
    // Code units, not characters: halves of surrogate pairs, controls and non-characters come up too.
    const anything = fc
      .array(
        fc.oneof(
          fc.integer({ min: 0, max: 0xffff }),
          fc.constantFrom(0, 9, 10, 27, 60, 38, 34, 123, 0x202e, 0xd800, 0xffff),
        ),
        {
          minLength: 1,
          maxLength: 40,
        },
      )
      .map(units => String.fromCharCode(...units));
    fc.assert(
      fc.property(anything, text => {
        const hostile = everyText(record, text);
        const view = buildView(hostile, assessment(hostile, fullStates));
        const document = documentOf(view, { audience: 'record' });
        const narrative = renderNarrative(document, templates);
        expect(narrativeFaults(renderReport(document, templates, 'xhtml'))).toEqual([]);
        for (const section of narrative.sections) expect(narrativeFaults(section.div)).toEqual([]);
      }),
      { numRuns: runs(60) },
    );
  });
});

describe('what a template may not make', () => {
  const xhtml = (inner: string) => `<div xmlns="http://www.w3.org/1999/xhtml">${inner}</div>`;
  it.each([
    ['a script', xhtml('<script>a</script>')],
    ['an image', xhtml('<img src="https://x.example/a.png"/>')],
    ['a link', xhtml('<a href="https://x.example">a</a>')],
    ['a handler', xhtml('<p onclick="a">a</p>')],
    ['a style', xhtml('<p style="color:red">a</p>')],
    ['upper-case tags', xhtml('<P>a</P>')],
    ['an HTML entity', xhtml('<p>a&nbsp;b</p>')],
    ['an open tag', xhtml('<p>a')],
    ['no words', xhtml('<p> </p>')],
    ['no namespace', '<div><p>a</p></div>'],
    ['another root', '<p xmlns="http://www.w3.org/1999/xhtml">a</p>'],
    ['two roots', xhtml('a') + xhtml('b')],
    ['a document type', `<!DOCTYPE div [<!ENTITY x "y">]>${xhtml('a')}`],
    ['a CDATA section', xhtml('<![CDATA[<script>]]>')],
    ['another namespace', xhtml('<svg xmlns="http://www.w3.org/2000/svg">a</svg>')],
  ])('%s is refused', (_, source) => {
    expect(() => narrativeDiv('site/x', source)).toThrow(CasetallyError);
  });
  it('writes the same thing whatever the white space between tags', () => {
    expect(narrativeDiv('x', xhtml('<p>a  b</p>\n  <p>c</p>\n'))).toBe(
      narrativeDiv('x', xhtml('<p>a b</p><p>c</p>')),
    );
  });
});
