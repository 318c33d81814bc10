import { useState } from 'preact/hooks';
import type { Conflict as Contended } from '../../src/drafts/merge-nodes.js';
import { say } from '../words.js';
import { useDesk } from './desk/desk.js';
import { briefly } from './desk/tree.js';

/** Somebody else set the same field: both values, to choose from. Nothing is saved until it is chosen. */
export function Conflict({ conflicts }: { readonly conflicts: readonly Contended[] }) {
  const { session } = useDesk();
  const [chosen, setChosen] = useState<ReadonlyMap<string, 'mine' | 'theirs'>>(new Map());
  const whole = conflicts.every(({ path }) => chosen.has(path));
  const settle = () => {
    if (whole)
      void session.settle(
        new Set(conflicts.map(({ path }) => path).filter(path => chosen.get(path) === 'mine')),
      );
  };
  return (
    <section class="conflict" aria-labelledby="conflict">
      <h2 id="conflict">{say('case.conflict')}</h2>
      <p>{say('case.conflict-hint')}</p>
      {conflicts.map(({ path, mine, theirs }) => (
        <fieldset key={path}>
          <legend>{path}</legend>
          {(['mine', 'theirs'] as const).map(side => (
            <button
              key={side}
              type="button"
              aria-pressed={chosen.get(path) === side}
              onClick={() => setChosen(new Map(chosen).set(path, side))}
            >
              <small>{say(`case.${side}`)}</small>
              {briefly(side === 'mine' ? mine : theirs) || say('case.nothing')}
            </button>
          ))}
        </fieldset>
      ))}
      <button type="button" class="main" disabled={!whole} onClick={settle}>
        {say('case.settle')}
      </button>
    </section>
  );
}
