import { randomBytes } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { sealingWith } from '../../../src/delivery/outbox/sealing.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { outboxContract } from './contract.js';
import { countedIds } from './ids.js';

const folder = mkdtempSync(join(tmpdir(), 'outbox-'));
afterAll(() => rmSync(folder, { recursive: true }));

const newId = countedIds();
const key = () => randomBytes(32).toString('base64');
const newItem = {
  destination: 'd',
  caseKey: 'c',
  patientKey: 'p',
  payload: 'CANARY-PAYLOAD',
  context: 'CANARY-CONTEXT',
  digest: 'x',
};

outboxContract('memory', async () => {
  const outbox = new MemoryOutbox(newId);
  return { outbox, reopen: async () => outbox, cleanUp: () => outbox.close() };
});

it('an outbox in memory forgets everything when it is closed', async () => {
  const outbox = new MemoryOutbox(newId);
  await outbox.put(newItem, 0);
  await outbox.close();
  expect(await outbox.list()).toEqual([]);
});

for (const [name, sealing] of [
  ['SQLite', undefined],
  ['SQLite, sealed', sealingWith([key()])],
] as const) {
  outboxContract(name, async () => {
    const path = join(folder, `${newId()}.db`);
    const options = { newId, ...(sealing && { sealing }) };
    const opened = [await openSqliteOutbox(path, options)];
    return {
      outbox: opened[0]!,
      reopen: async () => {
        const again = await openSqliteOutbox(path, options);
        opened.push(again);
        return again;
      },
      cleanUp: async () => {
        for (const outbox of opened) await outbox.close();
      },
    };
  });
}

describe('SQLite at rest', () => {
  it('is readable by its owner only', async () => {
    const path = join(folder, 'deep', 'er', 'mode.db');
    const outbox = await openSqliteOutbox(path, { newId });
    await outbox.put(newItem, 0);
    expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(statSync(`${path}-wal`).mode & 0o777).toBe(0o600);
    expect(statSync(join(folder, 'deep')).mode & 0o777).toBe(0o700);
    await outbox.close();
  });

  it('holds nothing readable when sealed, opens with the old key after a change, and not without it', async () => {
    const path = join(folder, 'sealed.db');
    const [old, fresh] = [key(), key()];
    const first = await openSqliteOutbox(path, { newId, sealing: sealingWith([old]) });
    const { id } = await first.put(newItem, 0);
    await first.park(id, { reason: 'invalid', by: 'x', at: 0, findings: [] });
    await first.close();
    expect(readFileSync(path).toString('latin1')).not.toContain('CANARY');
    const rotated = await openSqliteOutbox(path, { newId, sealing: sealingWith([fresh, old]) });
    expect(await rotated.get(id)).toMatchObject(newItem);
    await rotated.close();
  });

  it.each(['payload', 'context', 'parked', 'receipt'] as const)(
    'with one item whose %s was changed lists, gives and claims the others',
    async column => {
      const path = join(folder, `changed-${column}.db`);
      const outbox = await openSqliteOutbox(path, { newId, sealing: sealingWith([key()]) });
      const hurt = await outbox.put({ ...newItem, caseKey: 'hurt', patientKey: 'a' }, 0);
      await outbox.park(hurt.id, { reason: 'invalid', by: 'x', at: 0, findings: [] });
      await outbox.retry(hurt.id, 0);
      const later = await outbox.put({ ...newItem, caseKey: 'hurt', patientKey: 'a', digest: 'y' }, 0);
      const ofPatient = await outbox.put({ ...newItem, caseKey: 'c2', patientKey: 'a' }, 0);
      const other = await outbox.put({ ...newItem, caseKey: 'c3', patientKey: 'b' }, 0);
      const db = new Database(path);
      const { sealed } = db
        .prepare('SELECT payload AS sealed FROM content WHERE sequence = ?')
        .get(hurt.sequence) as { sealed: string };
      const table = column === 'payload' || column === 'context' ? 'content' : 'queue_item';
      const change = db.prepare(`UPDATE ${table} SET ${column} = ? WHERE sequence = ?`);
      change.run(`${sealed.slice(0, -4)}AAAA`, hurt.sequence);
      db.close();

      expect((await outbox.list()).map(({ id }) => id)).toEqual([later.id, ofPatient.id, other.id]);
      const all = await outbox.list({ unreadable: true });
      expect(all.map(({ unreadable }) => unreadable === true)).toEqual([true, false, false, false]);
      expect((await outbox.get(other.id))?.payload).toBe('CANARY-PAYLOAD');
      await expect(outbox.get(hurt.id)).rejects.toMatchObject({ code: 'outbox-unreadable' });

      // It is parked, so that a person sees it; its own case waits for it and nobody else does.
      const claimed = [await outbox.claim('d', 1, 10), await outbox.claim('d', 1, 10)];
      expect(claimed.map(lease => lease?.item.id)).toEqual([ofPatient.id, other.id]);
      expect(await outbox.claim('d', 1, 10)).toBeUndefined();
      const [parked] = await outbox.list({ unreadable: true, states: ['parked'] });
      expect(parked).toMatchObject({ id: hurt.id, lastReason: 'unreadable' });
      expect(await outbox.discard(hurt.id, { reason: 'sent anew', by: 'x', at: 2, findings: [] })).toBe(true);
      expect((await outbox.claim('d', 20, 10))?.item.id).toBe(later.id);
      await outbox.close();
    },
  );

  it('parks nothing when it is the key that does not fit', async () => {
    const path = join(folder, 'other-key.db');
    const outbox = await openSqliteOutbox(path, { newId, sealing: sealingWith([key()]) });
    const { id } = await outbox.put(newItem, 0);
    await outbox.close();
    const wrong = await openSqliteOutbox(path, { newId, sealing: sealingWith([key()]), anyKeys: true });
    await expect(wrong.claim('d', 1, 10)).rejects.toMatchObject({ code: 'outbox-key' });
    await wrong.close();
    const db = new Database(path);
    expect(db.prepare('SELECT state FROM queue_item WHERE id = ?').get(id)).toEqual({ state: 'waiting' });
    db.close();
  });

  it('says plainly that a file is not an outbox', async () => {
    const path = join(folder, 'other.db');
    writeFileSync(path, 'no database '.repeat(1000));
    await expect(openSqliteOutbox(path, { newId })).rejects.toMatchObject({ code: 'outbox-unreadable' });
    await expect(openSqliteOutbox(join(path, 'x.db'), { newId })).rejects.toMatchObject({
      code: 'file-unwritable',
    });
  });
});

describe('sealing', () => {
  it('tells a changed text, a text moved elsewhere, and a key that is none', () => {
    const { seal, open } = sealingWith([key()]);
    const sealed = seal('secret ✓', 'a/payload');
    expect(open(sealed, 'a/payload')).toBe('secret ✓');
    expect(sealed).not.toContain('secret');
    expect(seal('secret ✓', 'a/payload')).not.toBe(sealed);
    expect(() => open(sealed, 'b/payload')).toThrow(/changed or cut/);
    const flipped = sealed.slice(0, -2) + (sealed.endsWith('A') ? 'BB' : 'AA');
    expect(() => open(flipped, 'a/payload')).toThrow(/changed or cut/);
    expect(() => sealingWith(['c2hvcnQ='])).toThrow(/32 bytes/);
  });
});
