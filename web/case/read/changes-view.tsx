import { useState } from 'preact/hooks';
import { say } from '../../words.js';
import { ask } from '../ask/ask.js';
import { useDesk } from '../desk/desk.js';
import { textAt } from '../desk/tree.js';
import type { ShownChange } from '../engine/compared.js';
import type { CaseRow } from '../home/lists.js';

/** What this version tells differently from the one that was sent last, where there was one. */
export function ChangesView() {
  const { seen, service } = useDesk();
  const [changes, setChanges] = useState<readonly ShownChange[]>();
  const [said, setSaid] = useState('');
  const number = textAt(seen.tree, 'case.id');
  const version = Number(textAt(seen.tree, 'report.version') ?? 1);
  if (number === undefined || !(version > 1)) return null;
  const compare = async () => {
    setSaid(say('case.read.comparing'));
    const before = await lastSent(number);
    const found = before === undefined ? undefined : await service.engine.compare(before, seen.text);
    setChanges(found);
    setSaid(
      before === undefined
        ? say('case.read.no-earlier')
        : found === undefined
          ? say('case.read.not-compared')
          : say('case.read.differ', { n: found.length }),
    );
  };
  return (
    <section aria-labelledby="changes">
      <h3 id="changes">{say('case.read.changes')}</h3>
      <button type="button" onClick={() => void compare()}>
        {say('case.read.compare')}
      </button>
      <p role="status">{said}</p>
      <ul class="changes">
        {(changes ?? []).map(({ path, what, before, after }) => (
          <li key={path + what}>
            <strong>{what}</strong>
            {before !== undefined && <del>{before}</del>}
            {after !== undefined && <ins>{after}</ins>}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Text of the version of a case that left last; drafts of it are kept for the days that the site sets. */
async function lastSent(number: string): Promise<string | undefined> {
  const found = await ask<{ readonly drafts: readonly CaseRow[] }>('v1/drafts/search', {
    json: { find: number, since: '2000-01-01' },
  });
  if (!found.ok) return undefined;
  const [last] = found.body.drafts
    .filter(row => row.case === number && row.state === 'taken-in')
    .sort((a, b) => b.changed.localeCompare(a.changed));
  if (!last) return undefined;
  const draft = await ask<{ readonly text: string }>(`v1/drafts/${encodeURIComponent(last.id)}`);
  return draft.ok ? draft.body.text : undefined;
}
