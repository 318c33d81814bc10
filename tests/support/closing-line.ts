import type { Reporter, TestModule } from 'vitest/node';

/** Ends a run with one plain line of counts, which scripts can read whatever the runner's own summary looks like. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    const counts = { passed: 0, failed: errors.length, skipped: 0 };
    for (const module of modules) {
      // A module that could not even be loaded has no tests to count.
      if (module.errors().length > 0) counts.failed += 1;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed' || state === 'failed' || state === 'skipped') counts[state] += 1;
      }
    }
    process.on('exit', () => {
      process.stdout.write(`\n${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped\n`);
    });
  }
}
