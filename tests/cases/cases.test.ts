import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { describeDevices } from '../../src/devices/details.js';
import { checkSizes } from '../../src/devices/sizes/check.js';
import { tallyDevices } from '../../src/devices/tally/tally.js';
import { messageOf, remedyOf } from '../../src/findings/finding.js';
import { say } from '../../src/findings/say.js';
import { recordOf } from './record.js';

/** One case: parts of a record, laid over a small valid one, and everything that must be said about them. */
interface Case {
  name: string;
  record: Record<string, unknown>;
  /** `code path`, in any order: of the description, the tally and the sizes; nothing else may be found. */
  findings?: string[];
  /** End state by `device` or `device.part`; several rows joined by ` + `, with `N x` in front of counts above one. */
  states?: Record<string, string>;
  /** `what | because`; every line must be among what was not checked. */
  notChecked?: string[];
  /** Pieces of text that the messages must hold. */
  says?: string[];
}

const files = readdirSync(new URL('.', import.meta.url)).filter(name => name.endsWith('.yaml'));

describe.each(files)('%s', file => {
  const cases: Case[] = parse(readFileSync(new URL(file, import.meta.url), 'utf8'));
  it.each(cases.map(one => [one.name, one] as const))('%s', (_name, one) => {
    const record = recordOf(one.record);
    const described = describeDevices(record);
    const tally = tallyDevices(record, described.devices);
    const sizes = checkSizes(record, described.devices);
    const all = [...described.findings, ...tally.findings, ...sizes.findings];
    expect(all.map(f => `${f.code} ${f.path}`).sort()).toEqual([...(one.findings ?? [])].sort());
    for (const [key, expected] of Object.entries(one.states ?? {})) {
      const rows = tally.entries.filter(
        e => (e.part === undefined ? e.device : `${e.device}.${e.part}`) === key,
      );
      expect(rows.map(e => `${e.count > 1 ? `${e.count} x ` : ''}${e.state}`).join(' + '), key).toBe(
        expected,
      );
    }
    const skipped = sizes.notChecked.map(n => `${say(n.what)} | ${say(n.because)}`);
    for (const line of one.notChecked ?? []) expect(skipped).toContain(line);
    for (const text of one.says ?? []) expect(all.map(f => messageOf(f)).join('\n')).toContain(text);
    for (const f of all)
      expect(messageOf(f) + remedyOf(f), 'every place of the wording is filled').not.toMatch(/[{}]/);
  });
});
