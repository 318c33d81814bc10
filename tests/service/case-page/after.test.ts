import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { chromium } from '../../support/browser.js';
import { Room, unsigned } from './room.js';

/* What becomes of a case that has left, and the next version of its report. */

const AUTHOR = 'Dr Nyambura Hallowell';
let server: RunningSandbox;
let room: Room;
let sent: string;

async function left(text: string): Promise<string> {
  const id = await room.begin(text);
  await room.does(id, 'sign', { author: 'op', by: AUTHOR });
  while ((await room.draft(id)).state !== 'taken-in') await new Promise(resolve => setTimeout(resolve, 200));
  return id;
}

beforeAll(async () => {
  server = await startSandbox();
  room = new Room(`drafts: { graceMinutes: 0 }
references: { patient: include, encounter: include, order: include }
destinations: { records: { url: "${server.baseUrl}" } }
routes: [{ to: records }]
`);
  await room.start();
  sent = await left(unsigned());
});
afterAll(async () => {
  await room.end();
  await server.close();
});

describe.skipIf(!chromium)('a case that has left', () => {
  it('waits, is stopped with a reason, tried again, and shows its receipt', async () => {
    await room.open(`${sent}/finish`);
    await room.reads('records: waiting to be sent');
    await room.press('Stop it');
    await room.reads('Say why it is stopped');
    await room.type('[id^=park-]', 'the wrong day');
    await room.press('Stop it');
    await room.reads('stopped: somebody has to decide');
    expect(await room.faults()).toEqual([]);
    await room.press('Try now');
    await room.reads('records: waiting to be sent');
    const stop = room.work();
    await room.reads('records: delivered');
    await stop();
    await room.reads('Receipt dated');
    expect(await room.faults()).toEqual([]);
  });

  it('is corrected in a new draft, one version higher, that says why, and nothing of the old one changes', async () => {
    const before = await room.draft(sent);
    await room.open(`${sent}/finish`);
    await room.touch('[data-kind=amended]');
    expect(await room.tab.value(`document.querySelector('[data-action=correct]').disabled`)).toBe(true);
    await room.press(AUTHOR, '.correct');
    await room.type('#correct-why', 'The depth at the skin was wrong');
    expect(await room.faults()).toEqual([]);
    await room.press('Begin the new version');
    await room.tab.until(`location.hash !== '#${sent}/finish'`, 'the new draft');
    const id = (await room.tab.value<string>('location.hash')).slice(1);
    const { text, state } = await room.draft(id);
    const record = parse(text) as { report: Record<string, unknown> };
    expect(state).toBe('open');
    expect(record.report).toMatchObject({
      ...{ status: 'amended', version: 2, author: 'op' },
      change: { of: 1, by: 'op', why: 'The depth at the skin was wrong' },
    });
    expect(record.report['signedAt']).toBe(undefined);
    expect(await room.draft(sent)).toEqual(before);
    // What is new, against what was sent: only what says that there is a new version.
    await room.press('Finish');
    await room.press('Compare with the version sent last');
    await room.reads('Facts that differ');
    expect(await room.text('.changes')).toContain('The depth at the skin was wrong');
    expect(await room.faults()).toEqual([]);
  });

  it('is not corrected twice at once without a word', async () => {
    await room.open(`${sent}/finish`);
    await room.touch('[data-kind=withdrawn]');
    await room.type('#correct-why', 'Wrong patient');
    await room.press('Begin the new version');
    await room.reads('A draft of this case is being entered already');
    expect(await room.tab.value('location.hash')).toBe(`#${sent}/finish`);
  });
});
