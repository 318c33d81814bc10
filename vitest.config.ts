import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { leftOut } from './tests/support/by-turn.js';
import LongFirst from './tests/support/long-first.js';
import { inCI, partOf, seedOf, turnOf } from './tests/support/sampled.js';

/** Patterns of the tests to run where it is not all: those that judge a mutant. */
const some = process.env['CASETALLY_TESTS']?.split(' ');

export default defineConfig({
  test: {
    // One more than there are processors: many wait for a browser or a program.
    maxWorkers: availableParallelism() + 1,
    // A file leaves nothing changed that another could see, so all share what was loaded: loading it anew for each took
    // longer than most tests.
    isolate: process.env['CASETALLY_TESTS_ANEW'] === 'yes',
    sequence: { sequencer: LongFirst },
    reporters: ['default', './tests/support/closing-line.ts'],
    // Summed up in the closing lines.
    onConsoleLog: log =>
      log
        .trim()
        .split('\n')
        .every(line => partOf(line))
        ? false
        : undefined,
    // Ends what hangs; no test has a limit of its own, since a busy machine must not fail one.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    setupFiles: ['./tests/support/seeded.ts'],
    env: {
      NO_COLOR: '1',
      ...(inCI && { CASETALLY_SEED: String(turnOf('random cases', 2 ** 31, seedOf())) }),
    },
    ...(some
      ? { include: some }
      : {
          include: ['tests/**/*.test.ts'],
          exclude: leftOut.map(name => `tests/${name}.test.ts`),
          globalSetup: ['./tests/support/built.ts'],
        }),
  },
});
