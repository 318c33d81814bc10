import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Submissions, Verdict } from '../../../src/registry/store/submissions.js';
import { batchOf, newLine } from '../made.js';

export interface SubmissionsUnderTest {
  readonly submissions: Submissions;
  /** Opens a second one on the same data. */
  reopen(): Promise<Submissions>;
  cleanUp(): Promise<void>;
}

const verdict = (device: string, state: Verdict['state'], more: Partial<Verdict> = {}): Verdict => ({
  ...{ name: { case: 'A', device }, version: 1, state },
  ...more,
});
const answer = (verdicts: readonly Verdict[], digest = 'x') => ({
  text: 'as it came',
  digest,
  at: 5,
  verdicts,
});

/** The one suite that every store of what was given to registries passes. */
export function submissionsContract(name: string, open: () => Promise<SubmissionsUnderTest>): void {
  describe(`submissions contract: ${name}`, () => {
    let store: SubmissionsUnderTest;
    let submissions: Submissions;
    beforeEach(async () => {
      store = await open();
      submissions = store.submissions;
    });
    afterEach(() => store.cleanUp());

    it('keeps a batch, its bytes and its lines before anything is sent', async () => {
      const lines = [
        newLine('left'),
        newLine('right', { name: { case: 'A', device: 'right', part: 'lock' } }),
      ];
      const withheld = [
        { number: 1, case: 'B', device: 'drain', codes: ['registry.lot-missing', 'tally.open'] },
      ];
      await submissions.addBatch(batchOf('b-1'), 'the bytes\r\n', lines, withheld);
      const again = await store.reopen();
      try {
        expect(await again.batch('drains', 'b-1')).toEqual(batchOf('b-1'));
        expect(await again.content('drains', 'b-1')).toBe('the bytes\r\n');
        expect(await again.lines('drains', 'b-1')).toEqual(
          lines.map((line, n) => ({ ...line, registry: 'drains', batch: 'b-1', line: n + 1, state: 'open' })),
        );
        expect(await again.withheld('drains', 'b-1')).toEqual(withheld);
        expect(await again.batches('other')).toEqual([]);
      } finally {
        await again.close();
      }
    });

    it('keeps a batch whole or not at all', async () => {
      await submissions.addBatch(batchOf('b-1'), 'x', [newLine('left')], []);
      await expect(submissions.addBatch(batchOf('b-1'), 'y', [newLine('right')], [])).rejects.toThrow();
      expect(await submissions.content('drains', 'b-1')).toBe('x');
      expect((await submissions.linesOfCase('drains', 'A')).map(line => line.name.device)).toEqual(['left']);
    });

    it('knows the newest line of each entry of a case, and of no other', async () => {
      await submissions.addBatch(batchOf('b-1'), '', [newLine('left'), newLine('right')], []);
      await submissions.addBatch(
        batchOf('b-2'),
        '',
        [newLine('left', { version: 2 }), newLine('x', { name: { case: 'B', device: 'x' } })],
        [],
      );
      const now = await submissions.linesOfCase('drains', 'A');
      expect(now.map(({ name: { device }, version, batch }) => [device, version, batch])).toEqual([
        ['left', 2, 'b-2'],
        ['right', 1, 'b-1'],
      ]);
      expect(await submissions.linesOfCase('other', 'A')).toEqual([]);
    });

    it('takes the state of each line from its answer; the batch is answered when none is open', async () => {
      await submissions.addBatch(
        batchOf('b-1'),
        '',
        ['a', 'b', 'c'].map(device => newLine(device)),
        [],
      );
      await submissions.setBatch('drains', 'b-1', { state: 'sending', at: 2, reason: 'it hung.' });
      expect(await submissions.batch('drains', 'b-1')).toMatchObject({ triedAt: 2, reason: 'it hung.' });
      await submissions.setBatch('drains', 'b-1', { state: 'sent', at: 3 });
      expect(await submissions.batch('drains', 'b-1')).not.toHaveProperty('reason');
      await submissions.setAnswer('drains', 'b-1', answer([verdict('a', 'accepted')]));
      expect((await submissions.batch('drains', 'b-1'))?.state).toBe('sent');
      const rest = [verdict('b', 'refused', { code: 'R1', says: 'Wörter' }), verdict('c', 'missing')];
      await submissions.setAnswer('drains', 'b-1', answer(rest, 'y'));
      expect(await submissions.batch('drains', 'b-1')).toMatchObject({ state: 'answered', answeredAt: 5 });
      expect(await submissions.counts('drains')).toEqual({
        ...{ open: 0, accepted: 1, duplicate: 0, refused: 1, missing: 1 },
      });
      const [refused] = await submissions.linesIn('drains', ['refused']);
      expect(refused).toMatchObject({ code: 'R1', says: 'Wörter', name: { device: 'b' } });
      expect([
        await submissions.hasAnswer('drains', 'y'),
        await submissions.hasAnswer('drains', 'z'),
      ]).toEqual([true, false]);
    });

    it('changes no answered line, and none of another version or batch, by a later answer', async () => {
      await submissions.addBatch(batchOf('b-1'), '', [newLine('a')], []);
      await submissions.setAnswer('drains', 'b-1', answer([verdict('a', 'accepted', { version: 9 })]));
      await submissions.setAnswer('drains', 'other', answer([verdict('a', 'refused')], 'y'));
      expect((await submissions.counts('drains')).open).toBe(1);
      await submissions.setAnswer('drains', 'b-1', answer([verdict('a', 'accepted')], 'z'));
      await submissions.setAnswer('drains', 'b-1', answer([verdict('a', 'refused')], 'w'));
      expect((await submissions.counts('drains')).accepted).toBe(1);
    });

    it('lets what was left out be answered after all', async () => {
      await submissions.addBatch(batchOf('b-1'), '', [newLine('a')], []);
      await submissions.setAnswer('drains', 'b-1', answer([verdict('a', 'missing')]));
      await submissions.setAnswer('drains', 'b-1', answer([verdict('a', 'accepted')], 'y'));
      expect((await submissions.counts('drains')).accepted).toBe(1);
    });

    it('puts a line that goes out again into its new batch', async () => {
      await submissions.addBatch(batchOf('b-1'), '', [newLine('a')], []);
      await submissions.setAnswer('drains', 'b-1', answer([verdict('a', 'missing')]));
      await submissions.addBatch(batchOf('b-2'), '', [newLine('a')], []);
      const [line] = await submissions.linesOfCase('drains', 'A');
      expect(line).toMatchObject({ batch: 'b-2', state: 'open', version: 1 });
      expect(await submissions.lines('drains', 'b-1')).toEqual([]);
    });

    it('counts each person once in a group, and forgets what a case said before', async () => {
      await submissions.setAlike('drains', 'A', 'one', ['g', 'h']);
      await submissions.setAlike('drains', 'B', 'one', ['g']);
      await submissions.setAlike('drains', 'C', 'two', ['g']);
      await submissions.setAlike('other', 'D', 'three', ['g']);
      expect(await submissions.alike('drains', ['g', 'h', 'i'])).toEqual(
        new Map([
          ['g', 2],
          ['h', 1],
        ]),
      );
      await submissions.setAlike('drains', 'C', 'two', ['h']);
      expect(await submissions.alike('drains', ['g', 'h'])).toEqual(
        new Map([
          ['g', 1],
          ['h', 2],
        ]),
      );
    });

    it('keeps the fingerprint of a key from its first use', async () => {
      await submissions.setKey('drains', { keyId: 'k1', fingerprint: 'f', since: 1 });
      await submissions.setKey('drains', { keyId: 'k1', fingerprint: 'other', since: 2 });
      expect(await submissions.keys('drains')).toEqual([{ keyId: 'k1', fingerprint: 'f', since: 1 }]);
    });

    it('says what a pseudonym stands for, and keeps who asked, found or not', async () => {
      await submissions.addBatch(batchOf('b-1'), '', [newLine('a')], []);
      const ask = (pseudonym: string) =>
        submissions.resolve({ pseudonym, by: 'R. Nobody', why: 'a recall', at: 7 });
      const number = { system: 'https://ids.harbour.example/mrn', value: '4711' };
      const about = { registry: 'drains', case: 'A', number };
      expect(await ask('k1.entry-a')).toEqual([{ ...about, kind: 'entry', device: 'a' }]);
      expect(await ask('k1.case')).toEqual([{ ...about, kind: 'case' }]);
      expect(await ask('k1.patient')).toEqual([{ ...about, kind: 'patient' }]);
      expect(await ask('k1.nobody')).toEqual([]);
      const log = await submissions.accesses();
      expect(log.map(({ pseudonym, found, by, why }) => [pseudonym, found, by, why])).toEqual(
        ['k1.entry-a', 'k1.case', 'k1.patient', 'k1.nobody'].map((one, n) => [
          ...[one, n < 3 ? 1 : 0, 'R. Nobody', 'a recall'],
        ]),
      );
    });

    it('finds what was sent under a key', async () => {
      await submissions.addBatch(batchOf('b-1'), '', [newLine('a')], []);
      expect((await submissions.sentUnder('drains', 'k1')).map(line => line.name.device)).toEqual(['a']);
      expect(await submissions.sentUnder('drains', 'k')).toEqual([]);
    });

    it('is sealed anew, and sound', async () => {
      await submissions.addBatch(batchOf('b-1'), 'the bytes', [newLine('a')], []);
      await submissions.setAnswer('drains', 'b-1', answer([verdict('a', 'refused', { says: 'why' })]));
      await submissions.resolve({ pseudonym: 'x', by: 'R. Nobody', why: 'a recall', at: 7 });
      // The line, the batch, the answer and the look.
      expect(await submissions.rekey()).toBe(4);
      expect(await submissions.content('drains', 'b-1')).toBe('the bytes');
      expect((await submissions.lines('drains', 'b-1'))[0]?.says).toBe('why');
      expect(await submissions.integrity()).toEqual([]);
    });
  });
}
