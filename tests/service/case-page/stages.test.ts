import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { chromium } from '../../support/browser.js';
import { examplesFolder } from '../../support/examples.js';
import { Page } from './desk.js';
import { Room } from './room.js';

/* What is entered together, times of the case, and what others propose. */

const room = new Room(`intake: { kits: ${JSON.stringify(join(examplesFolder, 'kits'))} }
`);
beforeAll(() => room.start());
afterAll(() => room.end());

type Entry = Readonly<Record<string, unknown>>;
const recordOf = async (id: string) => {
  await new Page(room.tab).saved();
  return parse((await room.draft(id)).text) as Readonly<Record<string, Entry & readonly Entry[]>>;
};

const BEFORE = `casetally: 1
case: { id: FIRST-1 }
team:
  - { key: op, role: operator, name: Dr Ilse Marrable }
  - { key: nurse, role: nurse, name: Odhran Feltwell }
  - { key: sender, role: referrer, name: Dr Somebody Else }
`;
const OWN = `casetally: 1
team:
  - { key: nurse, role: nurse, name: Tamsin Okonedo }
  - { key: op, role: operator, name: Dr Ilse Marrable }
drugs: none
# from the kit Abscess drainage, drugs: { drug: lidocaine, dose: 10 mL, route: local infiltration }
# from the order OR-7, case.id: OR-7
# from the kit Abscess drainage, aftercare: { do: Flush the drain, every: 8 hours, by: ward }
`;

describe.skipIf(!chromium)('parts that are entered together', () => {
  it('open with what is entered now; times are one touch, and never overwritten by one', async () => {
    const id = await room.begin('casetally: 1\n');
    await room.open(id);
    await room.tab.until(`document.querySelector('[data-moment]')`, 'the times');
    await room.touch('[data-moment="before.checklist.signIn"]');
    await room.tab.until(
      `document.querySelector('[data-moment="before.checklist.signIn"].said')`,
      'it is said',
    );
    const record = await recordOf(id);
    expect(record['case']).toEqual({ date: expect.stringMatching(/^\d{4}-\d\d-\d\d$/) });
    expect(record['before']).toEqual({ checklist: { signIn: expect.stringMatching(/^\d\d:\d\d$/) } });
    // Touched again it leads to the field, and says nothing new.
    await room.touch('[data-moment="before.checklist.signIn"]');
    await room.tab.until(
      `document.querySelector('.sheet [data-path="before.checklist.signIn"]')`,
      'its field',
    );
    expect(await recordOf(id)).toEqual(record);
    await room.press('Record', '.views');
    await room.tab.until(`document.querySelectorAll('.sheet .part').length > 5`, 'the parts before');
    expect(await room.text('.stage[aria-current]')).toBe('All before the puncture');
    expect(await room.faults()).toEqual([]);
    await room.press('All at the end');
    await room.tab.until(
      `document.querySelector('.sheet [data-path="case.status"]')`,
      'the parts at the end',
    );
    expect(await room.faults()).toEqual([]);
    expect(room.complaints()).toEqual([]);
  });

  it('show what others propose; it counts once it is touched, and what was denied is not proposed', async () => {
    const before = await room.begin(BEFORE);
    const id = await room.begin(OWN);
    await room.open(id);
    await room.press('Record', '.views');
    await room.tab.until(`document.querySelector('.same-team')`, 'the team of the case before');
    expect(await room.text('.same-team')).toBe('Same team as FIRST-1');
    // The record of another patient is asked for by a touch alone.
    const others = () =>
      room.tab.requests.filter(({ url }) => url.endsWith(`drafts/${before}?language=en-GB`));
    expect(others()).toEqual([]);
    expect(await room.text('.sheet [data-path="drugs"]')).not.toContain('lidocaine');
    expect(await room.faults()).toEqual([]);
    await room.touch('.same-team');
    await room.tab.until(`!document.querySelector('.same-team')`, 'they are here');
    expect(others()).toHaveLength(1);
    await room.press('Take over', '.sheet [data-path="case.id"]');
    await room.tab.until(
      `!document.querySelector('.same-team') && !document.querySelector('.proposals')`,
      'taken',
    );
    await room.press('All at the end');
    await room.press('Take over', '.sheet [data-path="aftercare"]');
    await room.tab.until(`!document.querySelector('.proposals')`, 'taken');
    const record = await recordOf(id);
    expect(record['team']?.map(({ name, role }) => `${role} ${name}`)).toEqual([
      'nurse Tamsin Okonedo',
      'operator Dr Ilse Marrable',
      'nurse Odhran Feltwell',
    ]);
    expect(new Set(record['team']?.map(({ key }) => key)).size).toBe(3);
    expect(record['case']).toEqual({ id: 'OR-7' });
    expect(record['aftercare']).toEqual([{ do: 'Flush the drain', every: '8 hours', by: 'ward' }]);
    expect(record['drugs']).toBe('none');
  });

  it('gives a drug of a kit the time of now, and what stays as the kit says it', async () => {
    const id = await room.begin('casetally: 1\n');
    await room.open(id);
    await room.press('Add a kit');
    await room.press('Abscess drainage', '.adding');
    await room.tab.until(`document.querySelector('[data-device="drain"]')`, 'its devices');
    await room.press('Record', '.views');
    await room.press('Take over', '.sheet [data-path="drugs"]');
    await room.tab.until(`!document.querySelector('.sheet [data-path="drugs"] .proposals')`, 'taken');
    await room.press('Devices', '.views');
    await room.press('', '.row[data-device="drain"] .act, .row[data-device="drain"]');
    await room.tab.until(`document.querySelector('.row-more [data-do="insert"]')`, 'what it offers');
    await room.press('Insert', '.row-more');
    await room.press('Record', '.offer-form');
    await room.tab.until(`document.querySelector('.tray-in-the-patient [data-device="drain"]')`, 'it is in');
    await room.press('Finish', '.views');
    await room.touch('.thing:has([id="thing-drain"]) [data-answer="stays"]');
    await room.press('As proposed by kit Abscess drainage');
    await room.press('Record that it stays');
    await room.tab.until(`document.querySelector('.thing.settled')`, 'it is recorded');
    const record = await recordOf(id);
    expect(record['drugs']).toEqual([
      expect.objectContaining({ drug: 'lidocaine', dose: '10 mL', at: expect.stringMatching(/^\d\d:\d\d$/) }),
    ]);
    expect(record['left']).toEqual([
      expect.objectContaining({
        device: 'drain',
        purpose: 'temporary',
        latest: '4 weeks',
        fixedBy: 'suture',
      }),
    ]);
  });
});
