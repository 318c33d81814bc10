import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { CasetallyError } from '../../../src/findings/errors.js';
import { audiences } from '../../../src/report/options.js';
import { bareCase } from '../../support/report/cases.js';
import { allTimelines, allViews, render, renderWith, viewOf } from '../../support/report/reports.js';

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly parents: readonly string[];
  text: string;
}

function elements(page: string): Element[] {
  const all: Element[] = [];
  const open: Element[] = [];
  const parser = new SaxesParser();
  parser.on('error', error => {
    throw error;
  });
  parser.on('opentag', tag => {
    const element = { name: tag.name, attributes: tag.attributes, parents: open.map(e => e.name), text: '' };
    all.push(element);
    open.push(element);
  });
  parser.on('text', text => {
    for (const element of open) element.text += text;
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.write(page).close();
  return all;
}

const pages = allViews().flatMap(([name, view]) =>
  audiences.map(audience => [name, audience, view] as const),
);

describe.each(pages)('page of %s for %s', (_, audience, view) => {
  const page = render(view, audience, 'html');
  const all = elements(page);
  const named = (name: string) => all.filter(e => e.name === name);

  it('names its language and has a title with patient and status', () => {
    expect(page).toMatch(/^<!DOCTYPE html>\n<html lang="en-GB">/);
    expect(named('title')[0]?.text).toContain(view.identity.name);
    expect(named('title')[0]?.text).toContain(view.status.label);
  });
  it('has one h1, then h2 without a jump, one main and one header', () => {
    expect(named('h1')).toHaveLength(1);
    expect(named('h2').length).toBeGreaterThan(3);
    expect(all.filter(e => /^h[3-6]$/.test(e.name))).toEqual([]);
    for (const name of ['main', 'header', 'footer']) expect(named(name)).toHaveLength(1);
  });
  it('gives each table header cells with a scope; tables with columns have a caption', () => {
    expect(named('th').length).toBeGreaterThan(0);
    for (const th of named('th')) expect(['row', 'col']).toContain(th.attributes['scope']);
    const tables = page
      .split('<table')
      .slice(1)
      .filter(t => t.includes('<thead>'));
    for (const table of tables) expect(table.slice(0, table.indexOf('</table>'))).toContain('<caption');
  });
  it('takes nothing from outside and runs nothing', () => {
    expect(
      all.filter(e => ['script', 'link', 'iframe', 'object', 'img', 'form', 'base', 'a'].includes(e.name)),
    ).toEqual([]);
    expect(all.flatMap(e => Object.keys(e.attributes)).filter(name => /^on|href|src/.test(name))).toEqual([]);
    expect(named('style')[0]?.text).not.toMatch(/url\(|@import|expression/);
    expect(page).toContain("default-src 'none'");
  });
  it('carries the caution', () => {
    for (const line of audience === 'patient' ? view.patient.caution : view.caution)
      expect(page).toContain(line);
  });
});

/** Relative luminance and contrast as WCAG 2.2 defines them (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio). */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const full = hex.length === 4 ? hex.replace(/[0-9a-f]/gi, c => c + c) : hex;
    const [r = 0, g = 0, blue = 0] = [1, 3, 5]
      .map(i => Number.parseInt(full.slice(i, i + 2), 16) / 255)
      .map(c => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue;
  };
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

describe('colours', () => {
  const style = render(viewOf(bareCase), 'record', 'html');
  const variable = (name: string) => new RegExp(`--${name}: (#[0-9a-f]+)`).exec(style)?.[1] ?? '';
  it('the measure agrees with known values', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
    // The well-known lightest grey that passes on white.
    expect(contrast('#767676', '#ffffff')).toBeGreaterThanOrEqual(4.5);
    expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
  });
  it.each([
    ['ink', '#ffffff'],
    ['soft', '#ffffff'],
    ['lead', '#ffffff'],
    ['ink', 'band'],
    ['soft', 'band'],
    ['ink', '#f6f6f6'],
  ])('%s on %s passes AA', (front, back) => {
    expect(contrast(variable(front), back.startsWith('#') ? back : variable(back))).toBeGreaterThanOrEqual(
      4.5,
    );
  });
});

describe('timeline picture', () => {
  const view = viewOf(bareCase);
  const withPicture = (timelineSvg: string) =>
    renderWith(view, { audience: 'record', format: 'html', timelineSvg });
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><title>Timeline</title><rect width="1" height="1"/></svg>';

  it('stands in the page as it is', () => {
    expect(withPicture(svg)).toContain(svg);
    expect(withPicture(svg)).toContain('<figcaption>');
    expect(render(view, 'record', 'html')).not.toContain('<figure>');
  });
  it.each(allTimelines())('that Casetally draws for %s is taken', (_, drawn) => {
    expect(withPicture(drawn)).toContain(drawn);
  });
  it.each([
    ['no svg', '<p>x</p>'],
    ['a script', '<svg><script>a</script></svg>'],
    ['a handler', '<svg onload="a"/>'],
    ['foreign content', '<svg><foreignObject/></svg>'],
    ['an outside link', '<svg xmlns:xlink="x"><use xlink:href="https://x.example/a.svg#b"/></svg>'],
    ['an outside fill', '<svg><rect fill="url(https://x.example/a)"/></svg>'],
    ['an import', '<svg><style>@import "x"</style></svg>'],
    ['broken XML', '<svg><g></svg>'],
    ['a document type', '<!DOCTYPE svg><svg/>'],
  ])('%s is refused', (_, picture) => {
    expect(() => withPicture(picture)).toThrow(CasetallyError);
  });
});
