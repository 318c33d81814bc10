import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { expect } from 'vitest';
import type { Outbox } from '../../../src/delivery/outbox/outbox.js';

/** Four processes put and claim 1,000 items in the outbox at `place`: none is lost, none claimed twice. */
export async function fourProcessesShare(place: string, open: () => Promise<Outbox>): Promise<void> {
  const run = promisify(execFile);
  const filler = fileURLToPath(new URL('./filler.ts', import.meta.url));
  const taken = await Promise.all(
    ['a', 'b', 'c', 'd'].map(async name => {
      const { stdout } = await run(process.execPath, ['--import', 'tsx', filler, name, '250'], {
        env: { ...process.env, CASETALLY_DATA: place },
      });
      return JSON.parse(stdout) as string[];
    }),
  );
  const outbox = await open();
  const items = await outbox.list();
  await outbox.close();
  expect(items).toHaveLength(1_000);
  const claimed = taken.flat();
  expect(new Set(claimed).size).toBe(claimed.length);
  expect(new Set(items.filter(i => i.state === 'parked').map(i => i.id))).toEqual(new Set(claimed));
  expect(items.filter(i => i.state !== 'parked').every(i => i.state === 'waiting')).toBe(true);
  expect(claimed.length).toBeGreaterThan(900);
}
