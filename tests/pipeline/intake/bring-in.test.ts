import { expect, it } from 'vitest';
import { finding } from '../../../src/findings/finding.js';
import { bringIn } from '../../../src/pipeline/intake/bring-in.js';
import { unconfiguredSite } from '../../../src/site/site.js';

it('what a source said of itself is not lost where the text is no record', () => {
  const silent = finding('intake.not-answered', 'Condition', {
    destination: 'records',
    what: 'Condition',
    why: 'HTTP 403',
  });
  const { text, findings } = bringIn(
    '- no record\n',
    { contributions: [], kits: [], findings: [silent] },
    unconfiguredSite,
    '2026-03-14T08:00:00Z',
  );
  expect(text).toBeUndefined();
  expect(findings).toContainEqual(silent);
  expect(findings.length).toBeGreaterThan(1);
});
