import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { unsealed } from '../../src/delivery/outbox/sealing.js';
import { saveEdits, saveText } from '../../src/drafts/save.js';
import type { Drafts } from '../../src/drafts/store/drafts.js';
import { openSqliteDrafts } from '../../src/drafts/store/open.js';
import { version } from './store/contract.js';

const folder = mkdtempSync(join(tmpdir(), 'drafts-save-'));
const text = 'casetally: 1\ncase: { id: C-1, date: 2024-01-10 }\n';
let drafts: Drafts;
beforeAll(async () => {
  drafts = await openSqliteDrafts(join(folder, 'drafts.db'), { sealing: unsealed });
  await drafts.begin('d1', '2024-01-10', version(text));
});
afterAll(async () => {
  await drafts.close();
  rmSync(folder, { recursive: true });
});

describe('saving while many save', () => {
  const saving = { id: 'd1', base: 1, by: 'Nurse', at: 1 };
  const edits = [{ path: 'case.kind', value: 'biopsy' }];

  it('is refused as busy where no more may wait, and nothing is written', async () => {
    const full = () => undefined;
    const batch = { ...saving, batch: 'batch-one', inTurn: full };
    expect(await saveEdits(drafts, batch, { edits })).toEqual({ kind: 'busy' });
    expect(await saveText(drafts, { ...saving, inTurn: full }, `${text}# more\n`)).toEqual({ kind: 'busy' });
    expect((await drafts.get('d1'))?.version).toBe(1);
  });

  it('merges when its turn has come, in what is there by then', async () => {
    const order: string[] = [];
    const slow = async <Result>(merge: () => Result) => {
      await new Promise(resolve => setTimeout(resolve, 20));
      order.push('merged');
      return merge();
    };
    const waits = saveEdits(drafts, { ...saving, batch: 'batch-two', inTurn: slow }, { edits });
    const other = [{ path: 'case.urgency', value: 'urgent' }];
    expect(await saveEdits(drafts, { ...saving, batch: 'batch-three' }, { edits: other })).toMatchObject({
      kind: 'saved',
      version: 2,
    });
    expect(order).toEqual([]);
    // What was merged meanwhile was for a version that is no longer the last: it is merged again.
    expect(await waits).toMatchObject({ kind: 'saved', version: 3, theirs: other });
    expect((await drafts.get('d1'))?.text).toMatch(
      /kind: biopsy[\s\S]*urgency: urgent|urgency: urgent[\s\S]*kind: biopsy/,
    );
  });
});
