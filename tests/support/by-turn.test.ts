import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { leftOutAt, long } from './by-turn.js';

describe('long files of tests', () => {
  it('are there, each once', () => {
    const tests = join(import.meta.dirname, '..');
    expect(long.filter(name => !existsSync(join(tests, `${name}.test.ts`)))).toEqual([]);
    expect(new Set(long).size).toBe(long.length);
  });

  it('have their turn: over some commits each is run, and at each two of five', () => {
    const seeds = Array.from({ length: 60 }, (_, n) => `commit ${n}`);
    const run = (seed: string) => long.filter(name => !leftOutAt(seed).includes(name));
    expect(new Set(seeds.flatMap(run))).toEqual(new Set(long));
    for (const seed of seeds) expect(Math.abs(run(seed).length - long.length * 0.4)).toBeLessThan(2);
    expect(leftOutAt('a commit')).toEqual(leftOutAt('a commit'));
  });
});
