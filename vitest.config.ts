import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** Patterns of the tests to run where it is not all: those that judge a mutant. */
const some = process.env['CASETALLY_TESTS']?.split(' ');

/** Folders whose tests change nothing outside themselves: their files share what was loaded. */
const pure = [
  'clinical',
  'conformance',
  'devices',
  'findings',
  'fhir',
  'golden',
  'json',
  'published',
  'record',
  'report',
];

const test = {
  // Ends what hangs; no test has a limit of its own, since a busy machine must not fail one.
  testTimeout: 600_000,
  hookTimeout: 600_000,
  env: { NO_COLOR: '1' },
};
const folders = pure.map(name => `tests/${name}/**/*.test.ts`);

export default defineConfig({
  test: {
    maxWorkers: availableParallelism(),
    reporters: ['default', './tests/support/closing-line.ts'],
    ...(some
      ? { ...test, include: some }
      : {
          globalSetup: ['./tests/support/built.ts'],
          projects: [
            { test: { ...test, name: 'pure', include: folders, isolate: false } },
            { test: { ...test, name: 'edges', include: ['tests/**/*.test.ts'], exclude: folders } },
          ],
        }),
  },
});
