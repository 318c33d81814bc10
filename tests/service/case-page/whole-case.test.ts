import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { chromium } from '../../support/browser.js';
import { Room, unsigned } from './room.js';

/* One case from its beginning to its receipt, by one person at one tablet, with the service killed in between. */

const AUTHOR = 'Dr Nyambura Hallowell';
let server: RunningSandbox;
let room: Room;

beforeAll(async () => {
  server = await startSandbox();
  room = new Room(`drafts: { graceMinutes: 0 }
references: { patient: include, encounter: include, order: include }
destinations: { records: { url: "${server.baseUrl}" } }
routes: [{ to: records }]
`);
  await room.start();
});
afterAll(async () => {
  await room.end();
  await server.close();
});

describe.skipIf(!chromium)('a whole case', () => {
  it('is begun, entered, closed, signed, and delivered, whenever the service is killed', async () => {
    await room.open('', { name: AUTHOR });
    await room.press('Begin a case');
    await room.tab.until(`document.querySelector('.views')`, 'the case');
    const id = (await room.tab.value<string>('location.hash')).slice(1);
    await room.press('Text');
    await room.touch('#record');
    await room.tab.value(`document.querySelector('#record').select(), 0`);
    await room.kill();
    // The page goes on by itself; what is typed waits on the computer until the service is back.
    await room.tab.paste(unsigned());
    await room.press('Use this text');
    await room.reads('Kept on this computer until it is back');
    await room.start();
    await room.tab.value(`dispatchEvent(new Event('online')), 0`);
    await room.tab.until(`document.querySelector('.saving-saved')`, 'the text to be saved');
    // Every value as it was typed: numbers are texts in a record.
    const values = (text: string) => parse(text, { schema: 'failsafe' }) as unknown;
    expect(values((await room.draft(id)).text)).toEqual(values(unsigned()));

    await room.press('Finish');
    await room.press('Close: everything is entered');
    await room.reads('Entered, not signed yet');
    await room.kill();
    await room.start();
    expect((await room.draft(id)).state).toBe('closed');
    await room.tab.until(`document.querySelector('[data-author=op][aria-pressed=true]')`, 'the author');
    await room.type('#sign-name', AUTHOR);
    await room.press('Sign the report');
    await room.reads('The case is leaving now');
    await room.kill();
    await room.start();
    // Taken in by the service once it is up again, without anybody.
    await room.reads('records: waiting to be sent');
    const stop = room.work();
    await room.reads('records: delivered');
    await room.reads('Receipt dated');
    await stop();
    const { items, state } = await room.draft(id);
    expect([items?.length, state]).toEqual([1, 'taken-in']);
    // FHIR R4 search: the destination has the one document of this case, as signed.
    const found = await fetch(`${server.baseUrl}/DocumentReference`);
    const { entry } = (await found.json()) as { entry: { resource: { docStatus?: string } }[] };
    expect(entry.map(one => one.resource.docStatus)).toEqual(['final']);
  });
});
