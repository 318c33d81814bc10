import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import { rescueStore } from '../../../src/delivery/outbox/rescue.js';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { countedIds } from './ids.js';
import { openFiles } from './open-files.js';

const folder = mkdtempSync(join(tmpdir(), 'rescue-'));
afterAll(() => rmSync(folder, { recursive: true }));
const newId = countedIds();
const nameOf = countedIds('store');
const pathOf = () => join(folder, `${nameOf()}.db`);
const key = (n: number) => sealingWith([Buffer.alloc(32, n).toString('base64')]);
const options = { sealing: unsealed, isWhole: () => true, now: 5_000 };
const parked = { reason: 'invalid', by: 'x', at: 0, findings: [] };
const item = (caseKey: string, destination = 'records') => ({
  ...{ destination, caseKey, patientKey: caseKey, payload: `{"of":"${caseKey}"}`, digest: caseKey },
});

describe('a rescue', () => {
  it('copies whole items and gates, names those that are hurt, and leaves the store as it is', async () => {
    const from = pathOf();
    const outbox = await openSqliteOutbox(from, { newId });
    const made = [
      await outbox.put(item('a'), 1),
      await outbox.put({ ...item('b', 'other'), overwrite: true }, 2),
      await outbox.put(item('c'), 3),
    ];
    await outbox.park(made[0]?.id ?? '', parked);
    await outbox.discard(made[2]?.id ?? '', parked);
    const bad = await outbox.put(item('bad', 'other'), 4);
    const cut = await outbox.put(item('cut'), 5);
    await outbox.park(cut.id, parked);
    const torn = await outbox.put(item('torn'), 6);
    const gate = { destination: 'records', closedUntil: 9, failures: 2, paused: 'forbidden' };
    await outbox.changeGate('records', () => gate);
    const before = await outbox.list({});
    await outbox.close();
    const db = new Database(from);
    db.prepare("UPDATE queue_item SET parked = '{' WHERE id = ?").run(cut.id);
    db.prepare("UPDATE queue_item SET accepted = '[' WHERE id = ?").run(torn.id);
    db.close();
    const bytes = readFileSync(from);
    const to = pathOf();
    const overwriting: string[] = [];
    const isWhole = ({ caseKey, overwrite }: { caseKey: string; overwrite?: boolean }) => {
      if (overwrite) overwriting.push(caseKey);
      return caseKey !== 'bad';
    };
    expect(await rescueStore(from, to, { ...options, isWhole })).toStrictEqual({
      copied: 3,
      hurt: [
        { id: bad.id, destination: 'other' },
        { id: cut.id, destination: 'records' },
        { id: torn.id, destination: 'records' },
      ],
      lost: false,
    });
    expect([readFileSync(from).equals(bytes), overwriting, openFiles(folder)]).toEqual([true, ['b'], []]);
    const rescued = await openSqliteOutbox(to, { newId });
    const [a, b, c] = before;
    expect(await rescued.list()).toStrictEqual([
      { ...a, unknownSince: 5_000 },
      { ...b, unknownSince: 5_000 },
      c,
    ]);
    expect(await rescued.gate('records')).toEqual(gate);
    await rescued.close();
  });

  it('copies as it is what it has no key for, and not what was changed', async () => {
    const from = pathOf();
    const outbox = await openSqliteOutbox(from, { newId, sealing: key(1) });
    const kept = await outbox.put(item('a'), 1);
    const changed = await outbox.put(item('b'), 1);
    await outbox.close();
    const db = new Database(from);
    db.prepare('UPDATE content SET payload = substr(payload, 1, length(payload) - 4) WHERE sequence = ?').run(
      changed.sequence,
    );
    db.close();
    for (const sealing of [unsealed, key(2)])
      expect(await rescueStore(from, pathOf(), { ...options, sealing })).toMatchObject({
        copied: 2,
        hurt: [],
      });
    const to = pathOf();
    expect(await rescueStore(from, to, { ...options, sealing: key(1) })).toMatchObject({
      ...{ copied: 1, hurt: [{ id: changed.id }] },
    });
    const rescued = await openSqliteOutbox(to, { newId, sealing: key(1) });
    expect((await rescued.get(kept.id))?.payload).toBe('{"of":"a"}');
    await rescued.close();
  });

  it('copies none of those whose content is lost, and names them', async () => {
    const from = pathOf();
    const outbox = await openSqliteOutbox(from, { newId });
    const [kept, lost] = [await outbox.put(item('a'), 1), await outbox.put(item('b'), 1)];
    await outbox.close();
    const db = new Database(from);
    db.prepare('DELETE FROM content WHERE sequence = ?').run(lost.sequence);
    db.close();
    const to = pathOf();
    expect(await rescueStore(from, to, options)).toEqual({
      copied: 1,
      hurt: [{ id: lost.id, destination: 'records' }],
      lost: false,
    });
    const rescued = await openSqliteOutbox(to, { newId });
    expect((await rescued.list()).map(({ id }) => id)).toEqual([kept.id]);
    await rescued.close();
  });

  it.each(['schema-1', 'schema-3'])('of a store of %s is one of this version', async name => {
    const from = pathOf();
    copyFileSync(join(import.meta.dirname, 'earlier', `${name}.sqlite`), from);
    const to = pathOf();
    const opened: unknown[] = [];
    const isWhole = (held: { accepted?: unknown; overwrite?: unknown }) => {
      opened.push(held.accepted, held.overwrite);
      return true;
    };
    expect(await rescueStore(from, to, { ...options, isWhole })).toMatchObject({ copied: 5, lost: false });
    expect(new Set(opened)).toEqual(new Set([undefined]));
    const rescued = await openSqliteOutbox(to, { newId });
    expect((await rescued.list()).map(({ caseKey, state }) => `${caseKey} ${state}`)).toEqual([
      ...['a delivered', 'a waiting', 'b sending', 'c parked', 'd discarded'],
    ]);
    await rescued.put(item('new'), 0);
    expect((await rescued.check()).store).toEqual([]);
    await rescued.close();
  });

  it('of what cannot be read at all is none, and says so', async () => {
    const to = pathOf();
    const text = pathOf();
    writeFileSync(text, 'no database '.repeat(1000));
    await expect(rescueStore(text, to, options)).rejects.toMatchObject({
      code: 'outbox-unreadable',
      message: expect.stringContaining('nothing was copied'),
    });
    const absent = pathOf();
    await expect(rescueStore(absent, to, options)).rejects.toMatchObject({ code: 'file-unreadable' });
    const hurt = pathOf();
    const outbox = await openSqliteOutbox(hurt, { newId });
    for (let n = 0; n < 50; n += 1) await outbox.put(item(`${n}`), n);
    await outbox.close();
    const bytes = readFileSync(hurt);
    bytes.fill(0xa5, 100, 4096);
    writeFileSync(hurt, bytes);
    await expect(rescueStore(hurt, to, options)).rejects.toMatchObject({
      code: 'outbox-damaged',
      message: expect.stringContaining(`The outbox in ${hurt} is damaged`),
    });
    expect([existsSync(to), openFiles(folder)]).toEqual([false, []]);
  });
});
