import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { assessParsed, tallyRows } from '../../src/pipeline/check.js';
import { parseCaseData } from '../../src/record/parse.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { digests } from '../support/digests.js';
import { exampleFiles, exampleText } from '../support/examples.js';
import { sampled } from '../support/sampled.js';

const files = sampled('examples in time zones', exampleFiles, 6);

describe('the same input gives the same bytes in every time zone', () => {
  it('UTC, Los Angeles, Kolkata, Auckland', () => {
    const before = process.env['TZ'];
    try {
      const inZones = [
        ['UTC', 0],
        ['America/Los_Angeles', 480],
        ['Asia/Kolkata', -330],
      ].map(([zone, offset]) => {
        process.env['TZ'] = String(zone);
        expect(new Date(2024, 0, 1).getTimezoneOffset()).toBe(offset);
        return digests(files);
      });
      const [here = ''] = inZones;
      expect(here.trim().split('\n')).toHaveLength(files.length);
      expect(new Set(inZones).size).toBe(1);
      // A program that was started there as well, for what is read once at the start.
      const script = join(import.meta.dirname, '..', 'support', 'print-digests.ts');
      const env = { ...process.env, TZ: 'Pacific/Auckland' };
      const started = execFileSync(process.execPath, ['--import', 'tsx', script, ...files], {
        env,
        encoding: 'utf8',
      });
      expect(started).toBe(here);
    } finally {
      if (before === undefined) delete process.env['TZ'];
      else process.env['TZ'] = before;
    }
  });
});

describe('events in another order of lines, at the same times, give the same tally', () => {
  it.each(exampleFiles)('%s', file => {
    const whole: { events?: { at: string }[] } = parse(exampleText(file));
    const plain = tallyOf(whole);
    const events = whole.events ?? [];
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat()), stream => {
        // Events of one and the same minute keep their order: between them the file is the only witness.
        const groups = new Map<string, unknown[]>();
        for (const event of events) groups.set(event.at, [...(groups.get(event.at) ?? []), event]);
        const shuffled = [...groups.values()]
          .map(group => ({ group, rank: stream.next().value ?? 0 }))
          .sort((a, b) => a.rank - b.rank)
          .flatMap(({ group }) => group);
        expect(tallyOf({ ...whole, events: shuffled })).toEqual(plain);
      }),
      { numRuns: 8, seed: 20240314 },
    );
  });
});

function tallyOf(data: object) {
  const checked = assessParsed(parseCaseData(data), unconfiguredSite);
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
