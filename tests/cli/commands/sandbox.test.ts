import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { SANDBOX_SETTINGS } from '../../../src/cli/about.js';
import { send } from '../../../src/cli/commands/send.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { exampleFiles, examplesFolder } from '../../support/examples.js';

/** The YAML of the help: what is indented, below its first line. */
const shown = SANDBOX_SETTINGS.split('\n').filter(line => line.startsWith(' '));
const folder = mkdtempSync(join(tmpdir(), 'casetally-sandbox-'));
const site = join(folder, 'site.yaml');
let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
  const example = parse(readFileSync(join(examplesFolder, 'site.yaml'), 'utf8'));
  const destinations = parse(shown.join('\n').replace('http://127.0.0.1:PORT/fhir', server.baseUrl));
  writeFileSync(site, JSON.stringify({ ...example, destinations }));
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

describe('the settings that the help of sandbox shows', () => {
  it('are those of the example configuration', () => {
    const example = parse(readFileSync(join(examplesFolder, 'site.yaml'), 'utf8'));
    expect(parse(shown.join('\n')).trial.references).toEqual(example.destinations.trial.references);
  });

  it.each(exampleFiles)('send %s, without a word about the server', async name => {
    const lines: string[] = [];
    const put = (line: string) => void lines.push(line);
    const output = { out: put, err: put, color: false };
    const code = await send(join(examplesFolder, name), { to: 'trial', site, direct: true }, output);
    // The addresses of the examples are nobody's, which is not about the server.
    const told = lines.join('').match(/\bdelivery\.[\w-]+/g) ?? [];
    expect(told.filter(code => code !== 'delivery.reserved-host')).toEqual([]);
    expect(code).toBe(0);
  });
});
