import type { UserConsoleLog } from 'vitest';
import type { Reporter, TestModule } from 'vitest/node';
import { leftOut, long } from './by-turn.js';
import { partOf } from './sampled.js';

/**
 * Ends a run with one plain line of counts, which scripts can read whatever the runner's own summary looks like; before it
 * how many cases were run of the tests that run a part of theirs.
 */
export default class ClosingLine implements Reporter {
  private readonly parts = new Map<string, { readonly run: number; readonly all: number }>();

  onUserConsoleLog({ content }: UserConsoleLog): void {
    for (const line of content.split('\n')) {
      const part = partOf(line);
      if (part) this.parts.set(part.name, part);
    }
  }

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
    const parts = [...this.parts.values()];
    const sum = (of: 'run' | 'all') => parts.reduce((all, part) => all + part[of], 0);
    process.on('exit', () => {
      if (parts.length > 0)
        process.stdout.write(
          `\n${sum('run')} of ${sum('all')} cases of ${parts.length} lists; CASETALLY_ALL=1 runs all\n`,
        );
      if (leftOut.length > 0)
        process.stdout.write(
          `\n${leftOut.length} of ${long.length} long files left out, by the commit; CASETALLY_ALL=1 runs all\n`,
        );
      process.stdout.write(`\n${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped\n`);
    });
  }
}
