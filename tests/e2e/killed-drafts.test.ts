import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { program } from '../support/built.js';
import { sampled } from '../support/sampled.js';

/* The service is killed while many save edits of one draft. What it acknowledged is there, and nothing twice. */
const folder = mkdtempSync(join(tmpdir(), 'killed-drafts-'));
afterAll(() => rmSync(folder, { recursive: true }));
const site = join(folder, 'site.yaml');
// One thread, which starts in less time than several.
writeFileSync(
  site,
  `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a06
organization: { name: Test site }
service: { work: { threads: 1 } }
`,
);

let child: ChildProcess | undefined;
afterEach(() => child?.kill('SIGKILL'));

async function started(data: string): Promise<string> {
  const args = ['serve', '--site', site, '--no-auth', '--port', '0', '--data', data];
  const process_ = spawn(process.execPath, [program, ...args], {
    env: { ...process.env, CASETALLY_OUTBOX_KEY: Buffer.alloc(32, 5).toString('base64') },
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  child = process_;
  return new Promise((resolve, reject) => {
    createInterface({ input: process_.stdout }).on('line', line => {
      const url = /^Serving at (http:\/\/[\d.]+:\d+)/.exec(line)?.[1];
      if (url) resolve(url);
    });
    process_.once('exit', () => reject(new Error('the service ended')));
  });
}

const patch = (url: string, id: string, name: string) =>
  fetch(`${url}/drafts/${id}`, {
    method: 'PATCH',
    headers: { 'content-type': 'application/json', 'if-match': '"1"' },
    body: JSON.stringify({
      batch: `batch-${name}`,
      by: 'Nurse Aho',
      edits: [{ path: 'events', insert: 'end', value: { at: '08:30', do: 'note', what: name } }],
    }),
  });

const EDITS = 24;
const TABLETS = 4;

describe('killed while drafts are saved', () => {
  // After so many answers: in the middle of others that are on their way.
  it.each(sampled('answers after which the service is killed', [1, 5, 13], 3))(
    'after %i answers',
    async answers => {
      const data = join(folder, `${answers}`);
      const url = await started(data);
      const begun = await fetch(`${url}/drafts`, { method: 'POST', headers: { 'casetally-by': 'Nurse' } });
      const { id } = (await begun.json()) as { id: string };
      const acknowledged = new Set<string>();
      const tablet = async (n: number) => {
        for (let k = 0; k < EDITS / TABLETS; k += 1) {
          const name = `${n}-${k}`;
          const answer = await patch(url, id, name).catch(() => undefined);
          if (answer?.status !== 200) return;
          acknowledged.add(name);
          if (acknowledged.size === answers) child?.kill('SIGKILL');
        }
      };
      const dead = child && once(child, 'exit');
      await Promise.all(Array.from({ length: TABLETS }, (_, n) => tablet(n)));
      expect(await dead).toEqual([null, 'SIGKILL']);
      expect(acknowledged.size).toBeGreaterThanOrEqual(answers);
      expect(acknowledged.size).toBeLessThan(EDITS);

      const after = await started(data);
      const eventsNow = async () => {
        const { text } = (await (await fetch(`${after}/drafts/${id}`)).json()) as { text: string };
        return ((parse(text) as { events?: { what: string }[] }).events ?? []).map(({ what }) => what);
      };
      const there = await eventsNow();
      expect(new Set(there).size).toBe(there.length);
      expect([...acknowledged].filter(name => !there.includes(name))).toEqual([]);
      // Each tablet repeats what it got no answer to, and goes on; whoever is not sure repeats what was answered as well.
      for (let n = 0; n < TABLETS; n += 1)
        for (let k = 0; k < EDITS / TABLETS; k += 1)
          expect((await patch(after, id, `${n}-${k}`)).status).toBe(200);
      const all = await eventsNow();
      expect([all.length, new Set(all).size]).toEqual([EDITS, EDITS]);
      const { versions } = (await (await fetch(`${after}/drafts/${id}/versions`)).json()) as {
        versions: object[];
      };
      expect(versions).toHaveLength(EDITS + 1);
      const done = child && once(child, 'exit');
      child?.kill('SIGTERM');
      expect(await done).toEqual([0, null]);
    },
  );
});
