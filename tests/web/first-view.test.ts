import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { languages } from '../../src/findings/languages.js';
import { loadPage } from '../../src/service/api/page.js';

const root = join(import.meta.dirname, '..', '..');

const packed = (text: string) => gzipSync(text).byteLength;

describe('what the case page loads before anything is seen', () => {
  it.each(languages)('is under 150 kB packed, words included: %s', language => {
    const page = loadPage(language);
    const html = page.file('case.html', language)?.body ?? '';
    const named = [...html.matchAll(/(?:href|src)="case\/([^"]+)"/g)].map(([, name]) => name ?? '');
    expect(named.sort()).toEqual(['case.css', 'case.js']);
    const bytes = [html, ...named.map(name => page.file(name, language)?.body ?? '')].map(packed);
    expect(bytes.every(one => one > 100)).toBe(true);
    expect(bytes.reduce((sum, one) => sum + one, 0)).toBeLessThan(150_000);
  });

  it('has no style and no script of its own in it, and nothing of a case', () => {
    const html = readFileSync(join(root, 'dist', 'web', 'case.html'), 'utf8');
    expect(html).not.toMatch(/<style|style="|\son\w+=|<script(?![^>]* src=)/);
  });
});
