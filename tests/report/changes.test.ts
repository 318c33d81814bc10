import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { say } from '../../src/findings/say.js';
import { fields } from '../../src/findings/words/en/fields.js';
import { checkCase } from '../../src/pipeline/check.js';
import { prepareCase } from '../../src/pipeline/prepare.js';
import { changeRow, compareRecords, isAboutVersion } from '../../src/record/changes/compare.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { examplesFolder, testTools } from '../support/examples.js';

const read = (name: string) => {
  const { record, assessment } = checkCase(
    readFileSync(join(examplesFolder, 'amended', name)),
    unconfiguredSite,
  );
  if (!record || !assessment) throw new Error(name);
  return { record, assessment };
};

describe('a changed report', () => {
  const [old, fresh] = [read('version-1.yaml'), read('version-2.yaml')];
  const changes = compareRecords(old.record, fresh.record).filter(c => !isAboutVersion(c));
  const prepared = prepareCase(fresh.record, fresh.assessment, unconfiguredSite, testTools(), {
    previous: [old],
  });
  const { text, html } = prepared.reports.record;
  const flat = text.replace(/\s+/g, ' ');

  it('differs in something beside its version', () => {
    expect(changes.length).toBeGreaterThan(0);
  });

  it.each(changes.map(changeRow))(
    'states that $what changed, with both values',
    ({ what, before, after }) => {
      for (const said of [what, before, after]) {
        if (said === undefined) continue;
        const words = said.split(/\s+/).slice(0, 4).join(' ');
        expect(flat).toContain(words);
      }
    },
  );

  it('says by whom, when and why, and carries the digest of the record', () => {
    expect(flat).toContain(fresh.record.report.change?.why.split(/\s+/).slice(0, 4).join(' '));
    expect(html).toContain(prepared.digest);
  });

  it('says nothing of changes where no earlier version was given', () => {
    const alone = prepareCase(fresh.record, fresh.assessment, unconfiguredSite, testTools());
    expect(alone.reports.record.text).not.toContain('Changed facts');
    expect(text).toContain('Changed facts');
  });
});

describe.each(['de', 'es'] as const)('what was changed, in %s', language => {
  it('has a name for every field of the record', () => {
    const names = new Set<string>();
    const walk = (node: unknown) => {
      if (typeof node !== 'object' || node === null) return;
      const { properties } = node as { properties?: unknown };
      if (typeof properties === 'object' && properties !== null)
        for (const name of Object.keys(properties)) names.add(name);
      Object.values(node).forEach(walk);
    };
    walk(JSON.parse(readFileSync(join(import.meta.dirname, '../../case-record.schema.json'), 'utf8')));
    names.delete('$schema');
    expect(names.size).toBeGreaterThan(150);
    const named = Object.keys(fields).flatMap(key => /^field\.(.*)/.exec(key)?.[1] ?? []);
    expect(named.sort()).toEqual([...names].sort());
  });
  it('says it in no English', () => {
    const [old, fresh] = [read('version-1.yaml'), read('version-2.yaml')];
    const changes = compareRecords(old.record, fresh.record).filter(c => !isAboutVersion(c));
    const site = { ...unconfiguredSite, language };
    const { reports } = prepareCase(fresh.record, fresh.assessment, site, testTools(), { previous: [old] });
    const flat = reports.record.text.replace(/\s+/g, ' ');
    for (const change of changes) {
      const here = say(change.what, language);
      expect(here).not.toBe(say(change.what));
      expect(flat).toContain(here.split(/\s+/).slice(0, 4).join(' '));
    }
  });
});
