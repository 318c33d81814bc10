import { defineConfig } from 'vitest/config';

/** Patterns of the tests to run where it is not all: those that judge a mutant. */
const some = process.env['CASETALLY_TESTS']?.split(' ');

export default defineConfig({
  test: {
    include: some ?? ['tests/**/*.test.ts'],
    globalSetup: some ? [] : ['./tests/support/built.ts'],
    // Ends what hangs; no test has a limit of its own, since a busy machine must not fail one.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    env: { NO_COLOR: '1' },
    reporters: ['default', './tests/support/closing-line.ts'],
  },
});
