import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Output } from '../../../src/cli/output.js';
import { run } from '../../../src/cli/program.js';
import { findingsText } from '../../../src/cli/terminal/findings.js';
import { type Finding, finding } from '../../../src/findings/finding.js';
import { width } from '../../../src/report/render/wrap.js';
import { exampleFiles, examplesFolder } from '../../support/examples.js';

const to = (more: Partial<Output> = {}): Output => ({ out: () => {}, err: () => {}, color: false, ...more });

async function checked(file: string, more: Partial<Output>, ...flags: string[]): Promise<string> {
  const said: string[] = [];
  await run(['check', file, ...flags], to({ out: text => void said.push(text), ...more }));
  return said.join('');
}

const mistaken = join(examplesFolder, 'mistaken.yaml');
const lines = (text: string) => text.replace(/\n$/, '').split('\n');
const entries = (text: string) => text.match(/^(?:error|warning|Fehler|Warnung|aviso)\b/gm) ?? [];

describe('check of the mistaken example', () => {
  it('shows the ten worst in a screen of 80 columns, the verdict first and what is left last', async () => {
    const text = await checked(mistaken, { columns: 80 });
    expect(lines(text)[0]).toMatch(/: 28 errors, 10 warnings, 1 note; not to be sent$/);
    expect(entries(text)).toHaveLength(10);
    expect(lines(text).length).toBeLessThanOrEqual(40);
    expect(Math.max(...lines(text).map(width))).toBeLessThanOrEqual(80);
    expect(lines(text).slice(-2).join(' ')).toMatch(/^Not shown: 21 errors, 4 warnings, .*--verbose/);
    // What may be left in the patient before what is merely missing.
    expect(lines(text)[1]).toMatch(/^error {2}needle .*went in/);
    // The same one of other devices: one entry.
    expect(text.match(/no removal is/g)).toHaveLength(1);
  });

  it.each(['de', 'es'])('fits as well in %s', async language => {
    const text = await checked(mistaken, { columns: 80 }, '--language', language);
    expect(lines(text).length).toBeLessThanOrEqual(40);
    expect(Math.max(...lines(text).map(width))).toBeLessThanOrEqual(80);
    expect(lines(text)[0]).toMatch(language === 'de' ? /28 Fehler, 10 Warnungen/ : /28 errores, 10 avisos/);
    expect(text).toMatch(language === 'de' ? /Mit --verbose wird alles/ : /Con --verbose/);
  });

  it('stays within 40 columns', async () => {
    const text = await checked(mistaken, { columns: 40 });
    expect(
      Math.max(
        ...lines(text)
          .filter(line => !line.includes('/'))
          .map(width),
      ),
    ).toBeLessThanOrEqual(40);
    expect(entries(text).length).toBeGreaterThanOrEqual(5);
    // However short it is cut, it is said that there are more of it.
    expect(text).toContain('(+2 more)');
  });

  it('shows everything with --verbose: each code, the basis, notes, tally and values', async () => {
    const all = await checked(mistaken, { columns: 80 }, '--verbose');
    const json = JSON.parse(await checked(mistaken, {}, '--json')) as { findings: Finding[] };
    for (const { code } of json.findings) expect(all).toContain(code);
    for (const part of ['Basis: ', '\nnote  ', '\nDevice tally\n', '\nWorked out'])
      expect(all).toContain(part);
    expect(all).not.toContain('Not shown');
  });

  it('says the same with colours as without', async () => {
    const plain = await checked(mistaken, { columns: 80 });
    const colored = await checked(mistaken, { columns: 80, color: true });
    expect(colored).not.toBe(plain);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colours are what it takes out
    expect(colored.replace(/\u001b\[\d+m/g, '')).toBe(plain);
  });
});

describe('a sound case', () => {
  it.each(exampleFiles.filter(file => file !== 'mistaken.yaml'))('%s keeps to both widths', async file => {
    for (const columns of [80, 40]) {
      const text = await checked(join(examplesFolder, file), { columns });
      const over = lines(text).filter(line => width(line) > columns && !/\S*[/\\]\S*$/.test(line));
      expect(over).toEqual([]);
      expect(text).toMatch(
        /^\S+:\s+(?:\d+\s+(?:warnings?|notes?)|no\s+findings)[,;][\s\S]*?\bcan\s+be\s+sent\n/,
      );
    }
  });

  it('keeps notes back, says how many, and shows the tally', async () => {
    const text = await checked(join(examplesFolder, 'liver-biopsy.yaml'), { columns: 80 });
    expect(text).toMatch(/liver-biopsy\.yaml: 1 note;\s+can be sent\n/);
    expect(text).toContain('Not shown: 1 note. Add --verbose to see everything.\n');
    expect(text).toContain('\nDevice tally\n');
    expect(text).not.toMatch(/^note/m);
  });
});

describe('one finding in many places', () => {
  const types =
    'Condition Device DeviceUseStatement Encounter Location Observation Organization Patient'.split(' ');
  const undeclared = (type: string) =>
    finding('delivery.type-not-declared', 'destination', {
      destination: 'records',
      type,
      what: 'Sending it',
    });

  it('is one entry that names what differs', () => {
    const text = findingsText('case.yaml', types.map(undeclared), to({ columns: 80, detail: 'screen' }));
    expect(entries(text)).toHaveLength(1);
    for (const type of types) expect(text).toContain(type);
    expect(text.match(/records does not/g)).toHaveLength(1);
    expect(lines(text)[0]).toMatch(/^case\.yaml: 8 \w+$/);
  });

  it('is two where one of them is accepted: its reason is shown', () => {
    const [one, two] = types.map(undeclared);
    if (!one || !two) throw new Error('two are needed');
    const text = findingsText('x', [one, { ...two, acknowledged: { reason: 'agreed' } }], to());
    expect(entries(text)).toHaveLength(2);
    expect(text).toContain('Accepted: agreed');
  });
});

describe('lines of the record', () => {
  const found = { ...finding('record.unsigned', 'report.status', { status: 'final' }), line: 2, column: 3 };
  const source = 'a: 1\nb: \u001b[31m{ name: Orla }\u0007\n';

  it('are shown with a caret, and nothing in them acts on the terminal', () => {
    expect(findingsText('x', [found], to(), { source })).toContain(
      '\n  2 | b: <U+001B>[31m{ name: Orla }<U+0007>\n    |   ^',
    );
  });

  it('are left out for what is missing as a whole: its path is said', () => {
    const missing = {
      ...finding('record.not-recorded', 'before.consent', { what: 'Consent' }),
      line: 1,
      column: 1,
    };
    const text = findingsText('x', [missing], to({ columns: 200 }), { source: 'casetally: 1\n' });
    expect(text).toContain('(record.not-recorded, before.consent)\n  → ');
    expect(text).not.toContain(' | ');
  });

  it('do not go to a log: prepare and send show them where a person looks alone', async () => {
    for (const watched of [true, false]) {
      const said: string[] = [];
      const output = to({ err: text => void said.push(text), watched, columns: 80 });
      await run(['prepare', mistaken, '--out', join(examplesFolder, 'never')], output);
      expect([watched, /^ +\d+ \| /m.test(said.join(''))]).toEqual([watched, watched]);
      expect(said.join('')).toMatch(/^\S+: 28 errors, [^;]*;\s+nothing\s+was\s+written/);
    }
  });
});
