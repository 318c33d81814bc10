import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { chromium } from '../../support/browser.js';
import { Room, undecidedEnd, unsigned } from './room.js';

/* Everything is entered: what is in the patient at the end, said by a person, and the case that is closed then. */

const room = new Room(`destinations: { records: { url: "http://127.0.0.1:9/fhir" } }
`);
beforeAll(() => room.start());
afterAll(() => room.end());

interface Ended {
  readonly left?: readonly Readonly<Record<string, unknown>>[] | 'none';
  readonly missing?: readonly Readonly<Record<string, unknown>>[];
  readonly aftercare?: readonly Readonly<Record<string, unknown>>[];
}
const recordOf = async (id: string) => parse((await room.draft(id)).text) as Ended;
async function until(holds: () => Promise<boolean>): Promise<void> {
  while (!(await holds())) await new Promise(resolve => setTimeout(resolve, 100));
}

describe.skipIf(!chromium)('closing', () => {
  it('asks for each thing in the patient, writes that it stays, and who takes it out when', async () => {
    const id = await room.begin(undecidedEnd());
    await room.open(`${id}/finish`);
    await room.reads('Not decided yet: 1');
    expect(await room.tab.value(`document.querySelector('[data-action=close]').disabled`)).toBe(true);
    await room.touch('[data-answer=stays]');
    await room.press('For a time');
    await room.type('#thing-drain-until-condition', 'output below 10 mL a day');
    await room.press('Interventional radiology');
    expect(await room.faults()).toEqual([]);
    await room.press('Record that it stays');
    await until(async () => Array.isArray((await recordOf(id)).left));
    const { left, aftercare } = await recordOf(id);
    expect(left).toEqual([
      { device: 'drain', purpose: 'temporary', until: { condition: 'output below 10 mL a day' } },
    ]);
    expect(aftercare?.at(-1)).toEqual({
      ...{ do: expect.stringMatching(/^Remove: 12 Fr drainage catheter/), device: 'drain' },
      ...{ when: 'output below 10 mL a day', by: 'interventional radiology' },
    });
    await room.reads('Stays: see what is recorded');
    expect(await room.faults()).toEqual([]);
    await room.press('Close: everything is entered');
    await room.reads('Entered, not signed yet');
    expect((await room.draft(id)).state).toBe('closed');
    await room.press('Go on entering');
    await room.reads('Close: everything is entered');
    expect((await room.draft(id)).state).toBe('open');
    expect(room.complaints()).toEqual([]);
  });

  it('writes what cannot be found only with how it was looked for and who was told', async () => {
    const id = await room.begin(undecidedEnd());
    await room.open(`${id}/finish`);
    await room.touch('[data-answer=missing]');
    await room.reads('Record that it cannot be found');
    await room.type('#thing-drain-searched', 'field, table, floor, waste');
    await room.type('#thing-drain-imaging', 'fluoroscopy of the abdomen');
    await room.press('Record that it cannot be found');
    await room.reads('Say first: Told');
    expect((await recordOf(id)).missing).toBe(undefined);
    await room.type('#thing-drain-told', 'the patient and the risk office');
    expect(await room.faults()).toEqual([]);
    await room.press('Record that it cannot be found');
    await until(async () => (await recordOf(id)).missing !== undefined);
    expect((await recordOf(id)).missing).toEqual([
      {
        ...{ device: 'drain', searched: 'field, table, floor, waste' },
        ...{ imaging: 'fluoroscopy of the abdomen', told: 'the patient and the risk office' },
      },
    ]);
    await room.reads('Cannot be found: see what is recorded');
  });

  it('asks who is going to sign, where nobody said it', async () => {
    const id = await room.begin(unsigned().replace(/^report:.*\n/m, ''));
    await room.open(`${id}/finish`);
    await room.reads('Who signs');
    expect(await room.tab.value(`document.querySelector('[data-action=close]').disabled`)).toBe(true);
    expect(await room.faults()).toEqual([]);
    await room.press('Dr Nyambura Hallowell', '.author');
    await room.press('Close: everything is entered');
    await room.reads('Entered, not signed yet');
    expect(parse((await room.draft(id)).text)).toMatchObject({
      report: { status: 'preliminary', author: 'op' },
    });
  });

  it('offers what can be done with what comes out', async () => {
    await room.open(`${await room.begin(undecidedEnd())}/finish`);
    await room.touch('[data-answer=out]');
    await room.reads('It is still held: unlock or deflate it first.', '.thing');
    await room.press('Unlock', '.thing');
    await room.touch('[data-answer=out][aria-pressed=false]');
    await room.reads('Remove', '.thing');
  });

  it('does not begin while nobody has said where a part is', async () => {
    const came = '  - { at: "11:45", do: remove, device: drain }\n';
    const undecided = undecidedEnd()
      .replace(/^ {2}- \{ at: "11:28".*\n/m, '')
      .replace(/^( {2}- \{ at: "11:29".*\n)/m, `$1${came}`);
    await room.open(`${await room.begin(undecided)}/finish`);
    await room.reads('First say where these are');
    expect(await room.tab.value(`document.querySelector('[data-action=close]')`)).toBe(null);
    expect(await room.faults()).toEqual([]);
  });

  it('stays shut for every wire and dilator of which nobody said that it came out', async () => {
    const id = await room.begin(
      unsigned().replace(/^ {2}- \{ at: .*do: remove, device: (?:needle|wire|dil).*\n/gm, ''),
    );
    await room.open(`${id}/finish`);
    await room.reads('Not decided yet');
    expect(await room.tab.value(`document.querySelector('[data-action=close]').disabled`)).toBe(true);
    expect(await room.tab.value(`document.querySelectorAll('.thing:not(.settled)').length`)).toBe(4);
    expect(await room.faults()).toEqual([]);
  });
});
