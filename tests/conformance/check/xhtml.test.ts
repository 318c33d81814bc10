import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readPlain, readXhtml, readXml } from '../../../src/conformance/check/xhtml.js';
import type { Loose } from '../validators.js';
import { published } from '../validators.js';

// Outside source: the XML parser, which must see in a text what the plain scan sees in it.
const modules = new URL('../../../node_modules/', import.meta.url);
const folders = ['hl7.fhir.uv.ips/example', 'hl7.fhir.r4.examples'];

function* narrativesIn(value: Loose): Generator<string> {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, member] of Object.entries(value)) {
    if (key === 'div' && typeof member === 'string') yield member;
    else yield* narrativesIn(member);
  }
}

const narratives = folders.flatMap(folder =>
  readdirSync(new URL(folder, modules))
    .filter(f => /^(Bundle|Composition|Patient|Observation|Procedure|Device|Condition)-.*\.json$/.test(f))
    .flatMap(f => [...narrativesIn(published(`${folder}/${f}`))]),
);

/** Cuts, doubles and replaces a few characters of a text, at places spread over it. */
function* damaged(text: string): Generator<string> {
  const marks = [
    '<',
    '>',
    '"',
    "'",
    '&',
    '/',
    ' ',
    ':',
    ']]>',
    '&#9;',
    '\u0001',
    '<!-- x -->',
    '<p>',
    '</p>',
  ];
  for (const [index, mark] of marks.entries()) {
    for (const part of [0, 1, 2, 3]) {
      const at = Math.floor((text.length * ((index * 4 + part) * 7919)) / (marks.length * 4)) % text.length;
      yield text.slice(0, at) + mark + text.slice(at);
      yield text.slice(0, at) + text.slice(at + 1);
    }
  }
}

test('the scan of plain narratives sees what the XML parser sees', { timeout: 60_000 }, () => {
  const plain = narratives.filter(n => readPlain(n));
  expect(plain.length).toBeGreaterThan(0.5 * narratives.length);
  for (const text of plain) expect(readPlain(text), text).toEqual(readXml(text));
});

test('a damaged narrative is not taken for well-formed', { timeout: 60_000 }, () => {
  let taken = 0;
  let faulty = 0;
  for (const narrative of narratives.filter(n => n.length < 1500).slice(0, 200)) {
    for (const text of damaged(narrative)) {
      const parsed = readXml(text);
      if (parsed.problem !== undefined) faulty += 1;
      const scanned = readPlain(text);
      if (!scanned) continue;
      taken += 1;
      expect(scanned, text).toEqual(parsed);
    }
  }
  expect(taken).toBeGreaterThan(1000);
  expect(faulty).toBeGreaterThan(1000);
});

const div = (inner: string, attributes = 'xmlns="http://www.w3.org/1999/xhtml"') =>
  `<div ${attributes}>${inner}</div>`;

test.each([
  [div('<p>a</p>'), true],
  [div('a &amp; b &#160;'), true],
  [div('<a href="x?a=1&amp;b=2">a</a>'), false],
  [div('&nbsp;'), false],
  [div('<p>a</b>'), false],
  [div('<p id="a" id="b">a</p>'), false],
  [div('<x:p>a</x:p>'), false],
  [div('<p xmlns="urn:x">a</p>'), false],
  [div('a', ''), false],
  [`${div('a')}b`, false],
  [div('a') + div('b'), false],
  ['text', false],
  ['', false],
])('%s is read by the scan: %s', (text, plain) => {
  expect(readPlain(text) !== undefined).toBe(plain);
  expect(readXhtml(text)).toEqual(readXml(text));
});

test('elements within one another have a limit, however they are read', () => {
  const nested = (levels: number, inside = '') =>
    `<div xmlns="http://www.w3.org/1999/xhtml">${'<b>'.repeat(levels - 1)}x${inside}${'</b>'.repeat(levels - 1)}</div>`;
  for (const inside of ['', '<!-- x -->']) {
    expect(readXhtml(nested(500, inside)).problem).toBeUndefined();
    expect(readXhtml(nested(501, inside)).problem).toContain('more than 500 levels');
  }
  const { problem } = readXhtml(`<div xmlns="http://www.w3.org/1999/xhtml">${'<b>'.repeat(300_000)}`);
  expect(problem).toContain('more than 500 levels');
});
