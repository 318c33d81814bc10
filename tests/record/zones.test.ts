import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, expect, it } from 'vitest';

const run = promisify(execFile);
const root = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'casetally-zones-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Prints the zone of the process and every example as read. */
const script = `
import { readdirSync, readFileSync } from 'node:fs';
import { parseCase } from ${JSON.stringify(pathToFileURL(join(root, 'dist/record/parse.js')).href)};
const folder = ${JSON.stringify(join(root, 'examples'))};
const names = readdirSync(folder).filter(name => /\\.(yaml|json)$/.test(name)).sort();
const answers = names.map(name => {
  const { record, partial, findings } = parseCase(readFileSync(folder + '/' + name));
  return [name, record, partial, findings];
});
console.log(JSON.stringify([new Date(0).getHours() * 60 + new Date(0).getMinutes(), answers]));
`;

it('reads every example to the same bytes, whatever the zone and language of the machine', async () => {
  const file = join(folder, 'read.mjs');
  writeFileSync(file, script);
  const places = [
    ['UTC', 'C'],
    ['America/Los_Angeles', 'en_US.UTF-8'],
    ['Asia/Kolkata', 'tr_TR.UTF-8'],
    ['Pacific/Auckland', 'de_DE.UTF-8'],
  ] as const;
  const hashes: string[] = [];
  const clocks: number[] = [];
  for (const [TZ, LANG] of places) {
    const { stdout } = await run(process.execPath, [file], {
      cwd: root,
      env: { ...process.env, TZ, LANG, LC_ALL: LANG },
      maxBuffer: 64_000_000,
    });
    const [clock, answers] = JSON.parse(stdout) as [number, unknown[]];
    expect(answers.length).toBeGreaterThanOrEqual(13);
    clocks.push(clock);
    hashes.push(createHash('sha256').update(JSON.stringify(answers)).digest('hex'));
  }
  // The processes really ran in four zones.
  expect(new Set(clocks).size).toBe(4);
  expect(new Set(hashes).size).toBe(1);
});
