import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findingsPage } from '../scripts/findings-page.js';
import { mappingPage } from '../scripts/mapping-page.js';
import { receiversPage } from '../scripts/receivers-page.js';
import { exitMeanings } from '../src/cli/exit.js';
import { messageOf } from '../src/findings/finding.js';
import { checkCase } from '../src/pipeline/check.js';
import { caseRecordJsonSchema } from '../src/record/json-schema.js';
import { siteJsonSchema } from '../src/site/json-schema.js';
import { unconfiguredSite } from '../src/site/site.js';

const root = join(import.meta.dirname, '..');
const read = (name: string) => readFileSync(join(root, name), 'utf8');
const readme = read('README.md');

describe('README', () => {
  it('shows a case that reads without an error', () => {
    const block = /```yaml\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
    const { record, findings } = checkCase(block, unconfiguredSite);
    expect(findings.filter(f => f.severity === 'error').map(f => messageOf(f))).toEqual([]);
    expect(record?.case.id).toBe('D-0417');
  });

  it('lists the exit codes of the program, as the program does', () => {
    const rows = [...readme.matchAll(/^\| (\d+) \| (.*) \|$/gm)].map(([, code, says]) => [
      Number(code),
      says,
    ]);
    expect(rows).toEqual(exitMeanings.map(([code, says]) => [code, says.replace(/\bsend\b/, '`send`')]));
  });

  it('points at files that exist', () => {
    for (const [, target] of readme.matchAll(/\]\((?!https?:)([^)#]+)\)/g))
      expect(() => read(target ?? ''), target).not.toThrow();
  });
});

describe('generated files are current', () => {
  it('docs/findings.md', () => {
    expect(read('docs/findings.md')).toBe(findingsPage());
  });
  it('docs/mapping.md', () => {
    expect(read('docs/mapping.md')).toBe(mappingPage());
  });
  it('docs/receivers.md', () => {
    expect(read('docs/receivers.md')).toBe(receiversPage());
  });
  // Renew them with `npm run docs`.
  it('case-record.schema.json', () => {
    expect(JSON.parse(read('case-record.schema.json'))).toEqual(caseRecordJsonSchema());
  });
  it('site.schema.json', () => {
    expect(JSON.parse(read('site.schema.json'))).toEqual(siteJsonSchema());
  });
});
