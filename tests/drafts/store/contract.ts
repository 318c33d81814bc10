import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Drafts, NewVersion } from '../../../src/drafts/store/drafts.js';

export interface DraftsUnderTest {
  readonly drafts: Drafts;
  /** Opens a second one on the same data. */
  reopen(): Promise<Drafts>;
  cleanUp(): Promise<void>;
}

export const text = (id: string, more = '') =>
  `# in the room\ncasetally: 1\ncase: { id: ${id}, date: 2024-01-10 }\npatient: { name: P ${id} }\n${more}`;

export const version = (of: string, more: Partial<NewVersion> = {}): NewVersion => ({
  ...{ text: of, by: 'Nurse Aho', at: 10, state: 'open', edits: [], base: 0 },
  ...more,
});

/** The one suite that every store of drafts passes. */
export function draftsContract(name: string, open: () => Promise<DraftsUnderTest>): void {
  describe(`drafts contract: ${name}`, () => {
    let store: DraftsUnderTest;
    let drafts: Drafts;
    beforeEach(async () => {
      store = await open();
      drafts = store.drafts;
    });
    afterEach(() => store.cleanUp());

    it('keeps every version, and gives each back with its bytes after it was opened again', async () => {
      const texts = [
        text('A'),
        text('A', 'note: ü \u2028\n'),
        text('A', 'note: ü\r\n'),
        'casetally: 1\n',
        text('A'),
      ];
      await drafts.begin('one', '2024-01-09', version(texts[0] ?? ''));
      for (const [n, now] of texts.entries())
        if (n > 0)
          expect(
            await drafts.write('one', n, version(now, { by: `P${n}`, at: 10 + n, base: n })),
          ).toHaveProperty('done.version', n + 1);
      drafts = await store.reopen();
      expect(await drafts.get('one')).toMatchObject({
        ...{ id: 'one', version: 5, state: 'open', text: texts[4], case: 'A', patient: 'P A', by: 'P4' },
        ...{ begunAt: 10, changedAt: 14 },
      });
      for (const [n, then] of texts.entries()) expect(await drafts.textOf('one', n + 1)).toBe(then);
      expect(await drafts.textOf('one', 0)).toBeUndefined();
      expect(await drafts.textOf('one', 6)).toBeUndefined();
      expect((await drafts.versions('one')).map(({ version: n, by, at }) => [n, by, at])).toEqual([
        [1, 'Nurse Aho', 10],
        ...[1, 2, 3, 4].map(n => [n + 1, `P${n}`, 10 + n]),
      ]);
    });

    it('writes for the version that is there alone, and knows of no other draft', async () => {
      await drafts.begin('one', '2024-01-10', version(text('A')));
      expect(await drafts.write('one', 2, version(text('B')))).toEqual({ stale: 1 });
      expect(await drafts.write('two', 1, version(text('B')))).toEqual({ missing: true });
      expect([await drafts.get('two'), await drafts.version('two'), await drafts.version('one')]).toEqual([
        ...[undefined, undefined, 1],
      ]);
    });

    it('lets one of two writers win, and tells the others', async () => {
      await drafts.begin('one', '2024-01-10', version(text('A')));
      const other = await store.reopen();
      const came = await Promise.all(
        Array.from({ length: 8 }, (_, n) =>
          (n % 2 === 0 ? drafts : other).write('one', 1, version(text(`W${n}`), { by: `W${n}` })),
        ),
      );
      const won = came.flatMap(one => ('done' in one ? [one.done.by] : []));
      expect(won).toHaveLength(1);
      expect(came.filter(one => 'stale' in one)).toEqual(Array.from({ length: 7 }, () => ({ stale: 2 })));
      expect((await drafts.get('one'))?.by).toBe(won[0]);
    });

    it('takes a batch once, whatever version it is repeated for', async () => {
      await drafts.begin('one', '2024-01-10', version(text('A')));
      await drafts.begin('two', '2024-01-10', version(text('A')));
      const sent = version(text('B'), { batch: 'b1', digest: 'd1' });
      expect(await drafts.write('one', 1, sent)).toHaveProperty('done.version', 2);
      expect(await drafts.write('one', 1, sent)).toEqual({ repeated: 2, same: true });
      await drafts.write('one', 2, version(text('C'), { batch: 'b2' }));
      expect(await drafts.write('one', 3, sent)).toEqual({ repeated: 2, same: true });
      expect(await drafts.write('one', 3, { ...sent, digest: 'd9' })).toEqual({ repeated: 2, same: false });
      expect(await drafts.batch('one', 'b1', 'd1')).toEqual({ repeated: 2, same: true });
      expect(await drafts.batch('one', 'b3', 'd1')).toBeUndefined();
      expect(await drafts.write('two', 1, sent)).toHaveProperty('done.version', 2);
      // Versions without one are no repeats of each other.
      expect(await drafts.write('two', 2, version(text('D')))).toHaveProperty('done.version', 3);
      expect(await drafts.write('two', 3, version(text('E')))).toHaveProperty('done.version', 4);
    });

    it('lists by the day of the case, else the day it was begun', async () => {
      await drafts.begin('a', '2024-03-01', version('casetally: 1\n', { at: 2 }));
      await drafts.begin('b', '2024-03-01', version(text('B'), { at: 1 }));
      await drafts.begin('c', '2024-03-01', version('casetally: 1\n', { at: 1 }));
      const ids = async (day?: string, limit = 9) =>
        (await drafts.list({ ...(day && { day }), limit })).map(({ id }) => id);
      expect(await ids('2024-03-01')).toEqual(['c', 'a']);
      expect(await ids('2024-01-10')).toEqual(['b']);
      expect(await ids(undefined, 2)).toEqual(['b', 'c']);
      await drafts.write('b', 1, version('casetally: 1\ncase: { date: 2024-02-31 }\n'));
      expect(await ids('2024-03-01')).toEqual(['b', 'c', 'a']);
    });

    it('erases what was discarded or taken in long enough ago, with every version, and nothing else', async () => {
      for (const id of ['open', 'gone', 'new', 'sent'])
        await drafts.begin(id, '2024-01-10', version(text(id)));
      await drafts.write('gone', 1, version(text('gone'), { state: 'discarded', why: 'Twice', at: 20 }));
      await drafts.write('new', 1, version(text('new'), { state: 'discarded', why: 'Twice', at: 30 }));
      await drafts.write('sent', 1, version(text('sent'), { state: 'taken-in', items: ['i1'], at: 20 }));
      expect((await drafts.versions('gone')).at(-1)).toMatchObject({ state: 'discarded', why: 'Twice' });
      expect((await drafts.versions('sent')).at(-1)).toMatchObject({ state: 'taken-in', items: ['i1'] });
      expect(await drafts.purge({ discarded: 25, takenIn: 15 })).toBe(1);
      expect(await drafts.purge({ discarded: 25, takenIn: 25 })).toBe(1);
      expect((await drafts.list({ limit: 9 })).map(({ id }) => id)).toEqual(['new', 'open']);
      expect(await drafts.versions('gone')).toEqual([]);
      expect(await drafts.integrity()).toEqual([]);
    });
  });
}
