import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { messageOf } from '../../src/findings/finding.js';
import { checkCase } from '../../src/pipeline/check.js';
import { type PreparedCase, prepareCase } from '../../src/pipeline/prepare.js';
import type { EarlierVersion } from '../../src/pipeline/versions.js';
import type { Site } from '../../src/site/site.js';
import { examplesFolder, fullSite, testTools } from './examples.js';

const file = (name: string) => readFileSync(join(examplesFolder, 'amended', name), 'utf8');

/** First version of the example: final, with a drain too many. */
export const firstText: string = file('version-1.yaml');
/** Second version: amended, without it. */
export const secondText: string = file('version-2.yaml');

/** The first version with another report block and, where wanted, other content. */
export function laterText(report: string, edit: (text: string) => string = text => text): string {
  return edit(firstText).replace(/^report: .*$/m, `report: ${report}`);
}

export const addendumText: string = laterText(
  '{ status: appended, version: 2, author: op, signedAt: 2024-09-18T09:00, change: { of: "1", by: op, at: 2024-09-18T08:50, why: Culture result added } }',
  text =>
    text.replace('two drains on free drainage.', 'two drains on free drainage. Culture grew Klebsiella.'),
);

export const withdrawnText: string = laterText(
  '{ status: withdrawn, version: 2, author: op, signedAt: 2024-09-17T15:00, change: { of: "1", by: op, at: 2024-09-17T14:50, why: Recorded under the wrong patient } }',
);

/** Every site reference is sent along, so that an empty server can take the case. */
export const site: Site = {
  ...fullSite,
  references: {
    patient: 'include',
    encounter: 'include',
    order: 'include',
    practitioner: 'include',
    organization: 'include',
    location: 'include',
  },
};

/** Reads and assesses a text that must be whole. */
export function versionOf(text: string): EarlierVersion {
  const { record, assessment, findings } = checkCase(text, site);
  if (!record || !assessment) throw new Error(findings.map(f => `${f.path}: ${messageOf(f)}`).join('\n'));
  return { record, assessment };
}

/** Prepares a version that follows others. */
export function preparedVersion(text: string, ...previous: readonly string[]): PreparedCase {
  const { record, assessment } = versionOf(text);
  return prepareCase(record, assessment, site, testTools(), { previous: previous.map(versionOf) });
}

const known = new Map<string, PreparedCase>();

/** The same, made once for all tests of a process: for those that only read it. */
export function knownVersion(text: string, ...previous: readonly string[]): PreparedCase {
  const key = JSON.stringify([text, ...previous]);
  const prepared = known.get(key) ?? preparedVersion(text, ...previous);
  known.set(key, prepared);
  return prepared;
}
