import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { characterFindings } from '../../../src/report/characters.js';
import { audiences } from '../../../src/report/options.js';
import { width } from '../../../src/report/render/wrap.js';
import { buildView } from '../../../src/report/view/view.js';
import { assessment, fullStates, read } from '../../support/report/assess.js';
import { fullCase } from '../../support/report/cases.js';
import { narrativeFaults } from '../../support/report/narrative-rules.js';
import { flat, render } from '../../support/report/reports.js';
import { everyText } from '../../support/report/strings.js';

const corpus: readonly (readonly [string, string])[] = [
  ['script element', '<script>alert(1)</script>'],
  ['image with handler', '<img src=x onerror=alert(1)>'],
  ['svg with handler', '<svg onload=alert(1)>'],
  ['end of style and script', '</style></title></script><script>alert(1)</script>'],
  ['javascript address', '<a href="javascript:alert(1)">x</a>'],
  ['attribute breakout', '" onmouseover="alert(1)" x="'],
  ['single quotes', "' onmouseover='alert(1)"],
  ['end of CDATA', ']]><script>alert(1)</script>'],
  ['comment', '--><script>alert(1)</script><!--'],
  ['entity', '&lt;script&gt; &amp; &#x3c;script&#x3e;'],
  ['css', '"; } body { display: none } @import url(https://x.example); /*'],
  ['css escape', '\\22 ; } * { display: none }'],
  ['template braces', '{{constructor}} {{{raw}}} {{> record/html}} {{#each sections}}x{{/each}}'],
  ['template prototype', '{{__proto__}} {{lookup this "constructor"}}'],
  ['word places', '{name} {what} {value} {date}'],
  ['dollar patterns', "$& $1 $' $` $$"],
  ['turned text', 'left \u202etfel\u202c \u2066right\u2069'],
  ['hidden in a name', 'Ve\u200bla\u2060 Quin\ufefftanar\u00ad'],
  ['controls', 'a\u0000b\u0007c\u001b[31mred\u009b31m\u007f'],
  ['half a pair', 'a\ud83db\ude00c'],
  ['line breaks', 'first\r\nsecond\u2028third\u0085fourth\n=====\n*** forged notice'],
  ['wide and combining', '\u4e2d\u6587\u306e\u540d\u524d e\u0301\u0302\u0303 \ud83d\udc69\u200d\u2695\ufe0f'],
  ['right-to-left script', '\u05d3\u05e0\u05d9 \u05e0\u05d9\u05d9 \u0627\u0644\u064a\u0633\u0627\u0631'],
  ['ten thousand letters', 'a'.repeat(10_000)],
  ['ten thousand characters of words', 'stent '.repeat(1_667).trim()],
];

const record = read(fullCase);

/** All element and attribute names of a page, and its text; throws when it is not well-formed. */
function outline(page: string) {
  const elements = new Set<string>();
  const attributes = new Set<string>();
  let text = '';
  const parser = new SaxesParser();
  parser.on('error', error => {
    throw error;
  });
  parser.on('opentag', tag => {
    elements.add(tag.name);
    for (const name of Object.keys(tag.attributes)) attributes.add(name);
  });
  parser.on('text', part => {
    text += part;
  });
  parser.write(page).close();
  return { elements: [...elements].sort(), attributes: [...attributes].sort(), text };
}

const plain = buildView(record, assessment(record, fullStates));

describe.each(corpus)('%s', (_, text) => {
  const hostile = everyText(record, text);
  const view = buildView(hostile, assessment(hostile, fullStates));

  it.each(audiences)('adds no element or attribute to the page for %s', audience => {
    const mine = outline(render(view, audience, 'html'));
    const clean = outline(render(plain, audience, 'html'));
    expect(mine.elements.filter(name => !clean.elements.includes(name))).toEqual([]);
    expect(mine.attributes.filter(name => !clean.attributes.includes(name))).toEqual([]);
    expect(narrativeFaults(render(view, audience, 'xhtml'))).toEqual([]);
  });

  it.each(audiences)('stays in 80 columns and carries no control character for %s', audience => {
    const lines = render(view, audience, 'text').split('\n');
    expect(Math.max(...lines.map(width))).toBeLessThanOrEqual(80);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that there are none is what is asked
    expect(lines.join('')).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u200b\ufeff]/);
  });
});

describe('what people wrote is shown as they wrote it', () => {
  it.each([['<b>bold</b> & "quoted"'], ['{{constructor}}'], ['cost $& $1 {name}'], ['\u05d3\u05e0\u05d9']])(
    '%s',
    text => {
      const hostile = everyText(record, text);
      const view = buildView(hostile, assessment(hostile, fullStates));
      expect(outline(render(view, 'record', 'html')).text).toContain(text);
      expect(flat(render(view, 'record', 'text'))).toContain(text);
    },
  );

  it('cannot forge a heading or a notice at the start of a line of the text report', () => {
    const forged = everyText(record, 'x\n*** forged\nOutcome\n=======\n');
    const lines = render(buildView(forged, assessment(forged, fullStates)), 'record', 'text').split('\n');
    const title = lines.indexOf('');
    expect(lines.slice(title).filter(line => /^\*\*\* forged|^=======$/.test(line))).toEqual([]);
  });
});

describe('characters that a report cannot carry are reported', () => {
  it.each([
    ['a\u0000b', 'report.illegal-character', 'U+0000'],
    ['a\ud800b', 'report.illegal-character', 'U+D800'],
    ['a\ufffeb', 'report.illegal-character', 'U+FFFE'],
    ['a\u202eb', 'report.turning-character', 'U+202E'],
    ['a\u200bb', 'report.hidden-character', 'U+200B'],
  ])('%j as %s', (text, code, characters) => {
    const findings = characterFindings({ ...record, patient: { ...record.patient, name: text } });
    expect(findings).toMatchObject([
      { code, path: 'patient.name', severity: 'warning', params: { characters } },
    ]);
  });
  it.each([
    'Zdzisława Morelowska',
    '\u05d3\u05e0\u05d9',
    '\u0646\u0645\u06cc\u200c\u062e\u0648\u0627\u0647\u0645',
    '\ud83d\udc69\u200d\u2695\ufe0f',
    'a\tb\nc',
  ])('%j is left alone', text => {
    expect(characterFindings({ name: text })).toEqual([]);
  });
});
