import { useEffect, useState } from 'preact/hooks';
import { deviceKey } from '../../../src/intake/device-key.js';
import { say } from '../../words.js';
import { ask } from '../ask/ask.js';
import { addTo } from '../close/entries.js';
import { useDesk } from '../desk/desk.js';
import { at, type Group, isGroup, listAt, nameOf, type Tree, textAt } from '../desk/tree.js';
import type { CaseRow } from '../home/lists.js';

interface Before {
  readonly id: string;
  readonly name: string;
}

/**
 * Those who were there in the case before on this day: one touch says that they are here as well. The record of the other
 * patient is asked for then, and not before.
 */
export function SameTeam() {
  const { service, session, seen, act, open, tell } = useDesk();
  const [before, setBefore] = useState<Before>();
  const draft = session.id;
  useEffect(() => {
    let over = false;
    void caseBefore(draft).then(found => over || setBefore(found));
    return () => {
      over = true;
    };
  }, [draft]);
  const begun = listAt(seen.tree, 'events').length > 0;
  if (!open || !before || begun) return null;
  const take = async () => {
    const answer = await ask<{ readonly text: string }>(`v1/drafts/${before.id}`);
    if (!answer.ok) return tell(answer.text);
    const { tree } = await service.engine.look(answer.body.text, service.clock.now());
    setBefore(undefined);
    const [first, ...more] = joining(listAt(tree, 'team'), listAt(seen.tree, 'team'));
    if (!first) return;
    const rest = more.map(value => ({ path: 'team', insert: 'end', value: { ...value } }) as const);
    await act([addTo(seen.tree, 'team', first), ...rest]);
  };
  return (
    <button type="button" class="same-team" onClick={() => void take()}>
      {say('case.same-team', { case: before.name })}
    </button>
  );
}

/** Those of another team who are not here yet, but for who asked for that case; under keys of their own. */
function joining(others: readonly Tree[], here: readonly Tree[]): readonly Group[] {
  const nameIn = (one: Tree) => nameOf(at(one, 'name'));
  const names = new Set(here.map(nameIn));
  const used = new Set(here.map(one => textAt(one, 'key') ?? ''));
  return others
    .filter(isGroup)
    .filter(one => one['role'] !== 'referrer' && nameIn(one) !== '' && !names.has(nameIn(one)))
    .map(one => {
      const own = textAt(one, 'key') ?? 'person';
      const key = used.has(own) ? deviceKey(own, used) : own;
      used.add(key);
      return { ...one, key };
    });
}

/** The case that was changed last today. */
async function caseBefore(draft: string): Promise<Before | undefined> {
  const listed = await ask<{ readonly drafts: readonly CaseRow[] }>('v1/drafts');
  if (!listed.ok) return undefined;
  const others = listed.body.drafts.filter(({ id, state }) => id !== draft && state !== 'discarded');
  const last = [...others].sort((a, b) => (a.changed < b.changed ? 1 : -1))[0];
  return last && { id: last.id, name: last.case ?? last.day };
}
