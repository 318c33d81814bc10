import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { describeDevices } from '../../../src/devices/details.js';
import { tallyDevices } from '../../../src/devices/tally/tally.js';
import { messageOf } from '../../../src/findings/finding.js';
import { parseCaseData } from '../../../src/record/parse.js';

const folder = new URL('../../../examples/', import.meta.url);
const removing = ['remove', 'retrieve', 'peel away', 'exchange'];

interface Plain {
  case?: unknown;
  events?: { do: string; device: string; part?: string; replaces?: string }[];
  [field: string]: unknown;
}

const cases = readdirSync(folder)
  .filter(name => name.endsWith('.yaml'))
  .map(
    name =>
      [name, parse(readFileSync(new URL(name, folder), 'utf8'), { schema: 'failsafe' }) as Plain] as const,
  )
  // Whole cases only: the one with planted mistakes cannot be read whole.
  .filter(([, plain]) => parseCaseData(plain).record !== undefined);

function tallyOf(plain: Plain) {
  const { record } = parseCaseData(plain);
  if (!record) throw new Error('not a whole record');
  return tallyDevices(record, describeDevices(record).devices);
}

const errors = (plain: Plain) =>
  tallyOf(plain)
    .findings.filter(f => f.severity === 'error')
    .map(f => `${f.code} ${f.path}`);

it('finds the examples', () => expect(cases.length).toBeGreaterThan(5));

describe.each(cases)('%s', (_name, plain) => {
  it('adds up', () => {
    expect(errors(plain)).toEqual([]);
    expect(tallyOf(plain).entries.filter(e => e.state === 'unaccounted')).toEqual([]);
  });

  const removals = (plain.events ?? []).flatMap((event, index) =>
    removing.includes(event.do) ? [index] : [],
  );
  it.skipIf(removals.length === 0).each(removals.map(index => [index, plain.events![index]!] as const))(
    'shows that removal %i is missing',
    (index, event) => {
      const mutated = { ...plain, events: plain.events!.filter((_, i) => i !== index) };
      const after = tallyOf(mutated);
      const said = after.findings.filter(f => f.severity === 'error');
      const about = event.do === 'exchange' ? event.replaces! : event.device;
      const held = after.entries.filter(
        e => e.device === about && (e.state === 'unaccounted' || e.state.startsWith('in situ')),
      );
      expect(
        held.map(e => e.part ?? e.device).length,
        `${event.do} ${about}.${event.part ?? ''}`,
      ).toBeGreaterThan(0);
      if (event.part === undefined) expect(said.map(f => messageOf(f)).join('\n')).toContain(about);
    },
  );
});
