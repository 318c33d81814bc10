import { describe, expect, it } from 'vitest';
import { processOutput } from '../../src/cli/output.js';

/** Streams of a process, and what was written to each. */
function streams(isTTY: boolean, env: Record<string, string> = {}) {
  const written = { out: '', err: '' };
  const stream = (name: 'out' | 'err') => ({
    isTTY,
    columns: isTTY ? 100 : 0,
    write: (text: string | Uint8Array) => {
      written[name] += String(text);
      return true;
    },
  });
  return { written, output: processOutput({ stdout: stream('out'), stderr: stream('err'), env }) };
}

describe('colours', () => {
  it.each([
    [true, {}, true],
    [false, {}, false],
    [true, { NO_COLOR: '1' }, false],
    [true, { NO_COLOR: '1', FORCE_COLOR: '1' }, false],
    [false, { FORCE_COLOR: '1' }, true],
    [true, { FORCE_COLOR: '0' }, false],
    [true, { TERM: 'dumb' }, false],
    [true, { NO_COLOR: '' }, true],
  ])('terminal %j with %j: %j', (terminal, env, color) => {
    expect(streams(terminal, env).output.color).toBe(color);
  });
});

describe('a terminal', () => {
  it('gets nothing that acts on it, whatever a command writes', () => {
    const { output, written } = streams(true);
    output.out('name \u001b]0;owned\u0007\r\u202e\n');
    output.err('\u009b2J');
    expect(written).toEqual({ out: 'name <U+001B>]0;owned<U+0007><U+000D><U+202E>\n', err: '<U+009B>2J' });
  });

  it('is no pipe: that gets every byte', () => {
    const { output, written } = streams(false);
    output.out('\u001b[2J');
    expect(written.out).toBe('\u001b[2J');
    expect([output.watched, output.progress, output.columns]).toEqual([false, undefined, 80]);
  });
});
