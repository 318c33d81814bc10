import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { CasetallyError } from '../../../src/findings/errors.js';
import { audiences, formats } from '../../../src/report/options.js';
import type { StoredPictures } from '../../../src/report/pictures/stored.js';
import { fullStates } from '../../support/report/assess.js';
import { fullCase } from '../../support/report/cases.js';
import { picture } from '../../support/report/picture.js';
import { render, renderWith, viewOf } from '../../support/report/reports.js';

const view = viewOf(fullCase, fullStates);
const given: StoredPictures = new Map([['images[0]', picture]]);
const page = renderWith(view, { audience: 'record', format: 'html', pictures: given });

function elements(source: string): { name: string; attributes: Record<string, string>; within: string }[] {
  const found: { name: string; attributes: Record<string, string>; within: string }[] = [];
  const open: string[] = [];
  const parser = new SaxesParser();
  parser.on('error', error => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    found.push({ name, attributes: { ...attributes } as Record<string, string>, within: open.join(' ') });
    open.push(name);
  });
  parser.on('closetag', () => void open.pop());
  parser.write(source).close();
  return found;
}
const imagesOf = (source: string) => elements(source).filter(element => element.name === 'img');

describe('stored pictures on a page', () => {
  it('are parts of it, unchanged, each in a figure with its words and its size', () => {
    const [image, ...more] = imagesOf(page);
    expect(more).toEqual([]);
    expect(image?.within).toMatch(/ figure$/);
    expect(image?.attributes).toEqual({
      src: `data:image/jpeg;base64,${Buffer.from(picture.jpeg).toString('base64')}`,
      alt: 'Stored image: last cholangiogram, Friday 15 March 2024, 00:30',
      width: '48',
      height: '32',
    });
    expect(page).toContain('<figcaption>last cholangiogram, Friday 15 March 2024, 00:30</figcaption>');
  });

  it('stand after the table of images and before the specimens', () => {
    const at = page.indexOf('<img');
    expect(at).toBeGreaterThan(page.indexOf('section of-images'));
    expect(at).toBeLessThan(page.indexOf('section of-specimens'));
  });

  // Content Security Policy Level 3, section 6.1: what a directive does not name is not loaded.
  it('are let in by the page, which lets in nothing from outside', () => {
    const policy = (source: string) => /Content-Security-Policy" content="([^"]*)"/.exec(source)?.[1];
    expect(policy(page)).toBe("default-src 'none'; style-src 'unsafe-inline'; img-src data:");
    expect(policy(render(view, 'record', 'html'))).toBe("default-src 'none'; style-src 'unsafe-inline'");
  });

  it.each(audiences.flatMap(audience => formats.map(format => [audience, format] as const)))(
    'are in the page of the full report alone: %s, %s',
    (audience, format) => {
      if (audience === 'record' && format === 'html') return;
      const options = { audience, format, pictures: given } as const;
      expect(renderWith(view, options)).toBe(render(view, audience, format));
    },
  );

  it('are named by every format of the full report', () => {
    for (const format of ['html', 'xhtml', 'text'] as const)
      expect(render(view, 'record', format)).toContain('File pictures/last.jpg');
  });

  it('have words that cannot leave their place', () => {
    const hostile = fullCase.replace(
      'description: last cholangiogram',
      `description: '"><script>alert(1)</script> {{raw}}'`,
    );
    const made = renderWith(viewOf(hostile, fullStates), {
      audience: 'record',
      format: 'html',
      pictures: given,
    });
    expect(elements(made).map(element => element.name)).not.toContain('script');
    expect(imagesOf(made)[0]?.attributes['alt']).toContain('"><script>alert(1)</script> {{raw}}');
  });

  it('that are no JPEG are a fault of the program that gives them', () => {
    const wrong = new Map([
      ['images[0]', { ...picture, jpeg: new Uint8Array(Buffer.from('<svg onload=x>')) }],
    ]);
    expect(() => renderWith(view, { audience: 'record', format: 'html', pictures: wrong })).toThrow(
      CasetallyError,
    );
  });
});
