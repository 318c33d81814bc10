import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { checkCase, tallyRows } from '../../src/pipeline/check.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { exampleFiles, exampleText } from '../support/examples.js';

const root = join(import.meta.dirname, '..', '..');

describe('the same input gives the same bytes in every time zone', () => {
  const script = join(root, 'tests', 'support', 'print-digests.ts');
  const digestsIn = (zone: string) =>
    execFileSync(process.execPath, ['--import', 'tsx', script], {
      cwd: root,
      env: { ...process.env, TZ: zone },
      encoding: 'utf8',
    });

  it('UTC, Los Angeles, Kolkata, Auckland', () => {
    const here = digestsIn('UTC');
    expect(here.trim().split('\n')).toHaveLength(exampleFiles.length);
    for (const zone of ['America/Los_Angeles', 'Asia/Kolkata', 'Pacific/Auckland'])
      expect(digestsIn(zone)).toBe(here);
  });
});

describe('events in another order of lines, at the same times, give the same tally', () => {
  it.each(exampleFiles)('%s', file => {
    const text = exampleText(file);
    const plain = tallyOf(text);
    const document = parseDocument(text);
    const events = (document.toJS() as { events?: { at: string }[] }).events ?? [];
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat()), stream => {
        // Events of one and the same minute keep their order: between them the file is the only witness.
        const groups = new Map<string, unknown[]>();
        for (const event of events) groups.set(event.at, [...(groups.get(event.at) ?? []), event]);
        const shuffled = [...groups.values()]
          .map(group => ({ group, rank: stream.next().value ?? 0 }))
          .sort((a, b) => a.rank - b.rank)
          .flatMap(({ group }) => group);
        const changed = document.clone() as typeof document;
        changed.set('events', shuffled);
        expect(tallyOf(String(changed))).toEqual(plain);
      }),
      { numRuns: 8, seed: 20240314 },
    );
  });
});

function tallyOf(text: string) {
  const checked = checkCase(text, unconfiguredSite);
  expect(checked.record).toBeDefined();
  return tallyRows(checked).map(({ device, part, state, because, count, inserted, removed }) => ({
    device,
    part,
    state,
    because,
    count,
    inserted,
    removed,
  }));
}
