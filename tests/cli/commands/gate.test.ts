import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { prepare } from '../../../src/cli/commands/prepare.js';
import { report } from '../../../src/cli/commands/report.js';
import type { Audience } from '../../../src/report/options.js';
import { lacking, pagesOf } from '../../report/pdf/support.js';
import { exampleText } from '../../support/examples.js';

/* While an error stands nothing is written and nobody is given a report that could pass for the record. */

const folder = mkdtempSync(join(tmpdir(), 'casetally-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const sound = exampleText('abscess-drain.yaml');
const edits: readonly (readonly [string, string | RegExp, string])[] = [
  ['a wire that never came out', /.*do: remove, device: wire.*\n/, ''],
  ['a stiffener that never came out', /.*part: stiffener.*\n/, ''],
  ['a drain that nothing says stays', '  - device: drain\n    purpose', '  - device: needle\n    purpose'],
  ['a device that is not declared', 'device: dil8, over: wire, into', 'device: dil9, over: wire, into'],
  ['a time that is none', 'at: "11:12"', 'at: "25:12"'],
];

/** The file of a case with one mistake in it. */
function mistaken(index: number): string {
  const [, from, to] = edits[index] ?? ['', '', ''];
  const text = sound.replace(from, to);
  if (text === sound) throw new Error('the edit changes nothing');
  const file = join(folder, `case-${index}.yaml`);
  writeFileSync(file, text);
  return file;
}

function output() {
  const out: string[] = [];
  const err: string[] = [];
  const bytes: Uint8Array[] = [];
  return {
    said: () => ({ out: out.join(''), err: err.join(''), bytes: Buffer.concat(bytes) }),
    to: {
      out: (text: string) => void out.push(text),
      err: (text: string) => void err.push(text),
      bytes: (some: Uint8Array) => void bytes.push(some),
      color: false,
    },
  };
}

async function reported(file: string, audience: Audience, format: 'text' | 'html' | 'pdf', draft: boolean) {
  const { said, to } = output();
  const code = await report(file, { audience, format, ...(draft && { draft }) }, to);
  return { code, ...said() };
}

describe.each(edits.map(([what], index) => [what, index] as const))('%s', (_, index) => {
  it('keeps prepare from writing anything', async () => {
    const { said, to } = output();
    const out = join(folder, `out-${index}`);
    expect(await prepare(mistaken(index), { out }, to)).toBe(1);
    expect(existsSync(out) ? readdirSync(out) : []).toEqual([]);
    expect(said().err).toMatch(/nothing\s+was\s+written/);
    expect(said().out).toBe('');
  });

  it('gives no letter to the patient, draft or not', async () => {
    for (const draft of [false, true]) {
      const { code, out, err } = await reported(mistaken(index), 'patient', 'text', draft);
      expect(code).toBe(1);
      expect(out).toBe('');
      expect(err).toMatch(/no letter to the patient|no report/);
    }
  });
});

describe('a report with an error', () => {
  const file = mistaken(0);
  it.each(['record', 'referrer', 'ward'] as const)('is a draft for the %s, or nothing', async audience => {
    const none = await reported(file, audience, 'text', false);
    expect(none).toMatchObject({ code: 1, out: '' });
    expect(none.err).toMatch(
      /^\S+: 1 error;\s+there\s+is\s+no\s+report\s+while\s+1\s+error\s+stands[\s\S]*--draft/,
    );
    const text = await reported(file, audience, 'text', true);
    expect(text.code).toBe(1);
    // The first screen of a terminal, and what it names: the device in words.
    const first = text.out.split('\n').slice(0, 24).join(' ').replace(/\s+/g, ' ');
    expect(first).toContain('DRAFT, NOT THE RECORD. 1 error has not been resolved');
    expect(first).toMatch(/NOT ACCOUNTED FOR: 0\.035 in guidewire/);
    const html = await reported(file, audience, 'html', true);
    expect(html.out.slice(0, html.out.indexOf('<h2'))).toContain('DRAFT, NOT THE RECORD');
  });

  it.skipIf(lacking)('says so in the head of every page of a PDF', async () => {
    const { bytes, code } = await reported(file, 'record', 'pdf', true);
    expect(code).toBe(1);
    const pages = pagesOf(bytes);
    expect(pages.length).toBeGreaterThan(2);
    for (const page of pages) expect(page.replace(/\s+/g, ' ')).toContain('DRAFT, 1 error: NOT THE RECORD');
  });
});

it('gives no letter to a patient who died, and prepares the rest without one', async () => {
  const file = join(folder, 'death.yaml');
  // Nothing else may speak of a living patient.
  const died = sound
    .replace(
      /^outcome:\n(?: .*\n)+/m,
      'outcome:\n  died: "12:10"\n  overall: successful\n  text: Drain in place; died in recovery.\n',
    )
    .replace(/^(?:aftercare|advice):\n(?: .*\n|\n)+/gm, '');
  writeFileSync(file, died);
  const letter = await reported(file, 'patient', 'text', false);
  expect(letter).toMatchObject({ code: 1, out: '' });
  expect(letter.err).toContain('the record says that the patient died');
  const { to } = output();
  const out = join(folder, 'death');
  expect(await prepare(file, { out }, to)).toBe(0);
  expect(readdirSync(out).filter(name => name.startsWith('patient'))).toEqual([]);
  expect(readdirSync(out)).toContain('ward.pdf');
});
