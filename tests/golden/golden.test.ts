import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exampleFiles, exampleName, preparedExample } from '../support/examples.js';
import { legible } from './legible.js';

/*
 * What each example becomes, one text a case. Renew them with `npx vitest run tests/golden -u` and read the diff.
 */
describe.each(exampleFiles)('%s', file => {
  it('gives the same submission, document and reports as before', async () => {
    await expect(legible(preparedExample(file))).toMatchFileSnapshot(
      join(import.meta.dirname, `${exampleName(file)}.txt`),
    );
  });
});

it('a golden file shows a change of any byte of any output', () => {
  const prepared = preparedExample(exampleFiles[0] ?? '');
  const whole = legible(prepared);
  const last = (text: string) => `${text.slice(0, -1)} ${text.slice(-1)}`;
  expect(legible({ ...prepared, submission: last(prepared.submission) })).not.toBe(whole);
  expect(legible({ ...prepared, document: last(prepared.document) })).not.toBe(whole);
  expect(legible({ ...prepared, timeline: last(prepared.timeline) })).not.toBe(whole);
  for (const [audience, { html, text }] of Object.entries(prepared.reports))
    for (const changed of [
      { html: last(html), text },
      { html, text: last(text) },
    ])
      expect(legible({ ...prepared, reports: { ...prepared.reports, [audience]: changed } })).not.toBe(whole);
});
