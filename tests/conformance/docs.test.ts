import { readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { conformanceWording } from '../../src/findings/wording/conformance.js';

const file = new URL('../../docs/conformance.md', import.meta.url);

/** The table of rules in docs/conformance.md; UPDATE_DOCS=1 writes it anew. */
test('docs/conformance.md lists every rule as the catalogue words it', () => {
  const rows = Object.entries(conformanceWording).map(([code, { severity, message, basis }]) => {
    const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('<', '&lt;');
    return `| ${code.slice('conformance.'.length)} | ${severity} | ${cell(message)} | ${cell(basis)} |`;
  });
  const table = ['| rule | severity | says | source |', '|---|---|---|---|', ...rows.sort()].join('\n');
  const text = readFileSync(file, 'utf8');
  const whole = text.replace(
    /<!-- rules -->[\s\S]*<!-- \/rules -->/,
    () => `<!-- rules -->\n${table}\n<!-- /rules -->`,
  );
  if (process.env['UPDATE_DOCS']) writeFileSync(file, whole);
  expect(whole === text || Boolean(process.env['UPDATE_DOCS'])).toBe(true);
  expect(rows.length).toBeGreaterThan(60);
});
