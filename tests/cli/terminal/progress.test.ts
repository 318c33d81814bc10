import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { progressOn } from '../../../src/cli/terminal/progress.js';

describe('progress', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('says nothing of what takes less than a second', () => {
    const written: string[] = [];
    const progress = progressOn(text => void written.push(text));
    progress.say('Reading');
    vi.advanceTimersByTime(900);
    progress.clear();
    vi.advanceTimersByTime(5000);
    expect(written).toEqual([]);
  });

  it('says what is being done after a second, and takes the line away again', () => {
    const written: string[] = [];
    const progress = progressOn(text => void written.push(text), 28);
    progress.say('Reading');
    vi.advanceTimersByTime(1000);
    progress.say('Sending \u001b a long way');
    progress.clear();
    expect(written).toEqual(['\r\u001b[KReading …', '\r\u001b[KSending <U+001B> a long …', '\r\u001b[K']);
  });
});

it('is not called beside --json', async () => {
  const said: string[] = [];
  const output = {
    out: () => {},
    err: () => {},
    color: false,
    progress: (text: string) => void said.push(text),
  };
  await run(['check', 'nowhere.yaml', '--json'], output);
  expect(said).toEqual([]);
  await run(['check', 'nowhere.yaml'], output);
  expect(said).toEqual(['Reading nowhere.yaml']);
});
