import { messageOf } from '../../src/findings/finding.js';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exampleFiles, exampleName, preparedExample } from '../support/examples.js';

/*
 * What each example becomes, as files that a person can read in a diff. Renew them with `npx vitest run tests/golden -u`
 * and read the diff. Attachments are named by size and digest in place of their bytes: the report itself is a file here.
 */
const withoutBytes = (json: string): string =>
  json.replace(/"data": "([A-Za-z0-9+/=]{200,})"/g, (_, data: string) => `"data": "(${Buffer.from(data, 'base64').length} bytes)"`);

const withoutDigests = (json: string): string => json.replace(/"hash": "[^"]+"/g, '"hash": "(digest)"').replace(/"size": \d+/g, '"size": 0');

describe.each(exampleFiles)('%s', file => {
  it('gives the same submission, document and reports as before', async () => {
    const prepared = preparedExample(file);
    const at = (name: string) => join(import.meta.dirname, exampleName(file), name);
    await expect(withoutDigests(withoutBytes(prepared.submission))).toMatchFileSnapshot(at('submission.json'));
    await expect(withoutDigests(withoutBytes(prepared.document))).toMatchFileSnapshot(at('document.json'));
    await expect(prepared.timeline).toMatchFileSnapshot(at('tally.svg'));
    for (const [audience, { html, text }] of Object.entries(prepared.reports)) {
      await expect(html).toMatchFileSnapshot(at(`${audience}.html`));
      await expect(text).toMatchFileSnapshot(at(`${audience}.txt`));
    }
    await expect(
      prepared.findings
        .filter(f => f.severity !== 'information')
        .map(f => `${f.severity} ${f.code} ${f.path}\n  ${messageOf(f)}\n`)
        .join(''),
    ).toMatchFileSnapshot(at('findings.txt'));
  });
});
