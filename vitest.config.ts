import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** Patterns of the tests to run where it is not all: those that judge a mutant. */
const some = process.env['CASETALLY_TESTS']?.split(' ');

export default defineConfig({
  test: {
    maxWorkers: availableParallelism(),
    // A file leaves nothing changed that another could see, so all share what was loaded: loading it anew for each took
    // longer than most tests.
    isolate: some !== undefined,
    reporters: ['default', './tests/support/closing-line.ts'],
    // Ends what hangs; no test has a limit of its own, since a busy machine must not fail one.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    env: { NO_COLOR: '1' },
    ...(some
      ? { include: some }
      : { include: ['tests/**/*.test.ts'], globalSetup: ['./tests/support/built.ts'] }),
  },
});
