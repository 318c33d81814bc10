import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { at } from '../desk/tree.js';
import type { ShownFinding } from '../engine/work.js';
import { FindingsView } from '../findings/findings-view.js';
import { Action } from '../finish/action.js';
import type { Who } from '../person/who.js';
import { AuthorView } from './author-view.js';
import { remainingIn } from './entries.js';
import { Thing } from './thing.js';

const isError = ({ severity }: ShownFinding) => severity === 'error' || severity === 'fatal';

/** Says that everything is entered: what is in the patient first, then what stands against the case. */
export function CloseView({ id, who }: { readonly id: string; readonly who: Who }) {
  const { seen, checked, view, go } = useDesk();
  const undecided = seen.placed.filter(({ tray }) => tray === 'undecided');
  if (seen.tree === undefined || (seen.placed.length === 0 && seen.findings.length > 0))
    return <p role="alert">{say('case.devices-unread')}</p>;
  if (undecided.length > 0)
    return (
      <section aria-labelledby="undecided">
        <h3 id="undecided">{say('case.finish.undecided')}</h3>
        <ul>
          {undecided.map(({ device, part, name }) => (
            <li key={`${device} ${part}`}>{name}</li>
          ))}
        </ul>
        <button type="button" onClick={() => go({ view: 'devices' })}>
          {say('case.view.devices')}
        </button>
      </section>
    );
  const remaining = remainingIn(seen.placed, seen.tree);
  const open = remaining.filter(one => one.open > 0);
  const errors = (checked?.findings ?? []).filter(isError).length;
  const unsaved = view.saving.kind !== 'saved';
  const why =
    open.length > 0
      ? say('case.finish.open', { n: open.length })
      : errors > 0
        ? say('case.finish.errors', { n: errors })
        : unsaved
          ? say('case.finish.unsaved')
          : !checked
            ? say('case.checking')
            : undefined;
  return (
    <>
      <Inside remaining={remaining} />
      <AuthorView />
      <section aria-labelledby="against">
        <h3 id="against">{say('case.finish.against')}</h3>
        <FindingsView />
      </section>
      <Action id={id} what="close" who={who} say={say('case.finish.close')} not={why} />
    </>
  );
}

function Inside({ remaining }: { readonly remaining: ReturnType<typeof remainingIn> }) {
  const { seen, go, act } = useDesk();
  const open = remaining.filter(one => one.open > 0);
  const settled = remaining.filter(one => one.open === 0);
  const nothing = remaining.length === 0 && at(seen.tree, 'left') === undefined;
  return (
    <section aria-labelledby="inside">
      <h3 id="inside">{say('case.tray.in the patient')}</h3>
      {remaining.length === 0 && <p>{say('case.finish.nothing-inside')}</p>}
      {nothing && (
        <button type="button" onClick={() => void act([{ path: 'left', value: 'none' }])}>
          {say('case.finish.none-stays')}
        </button>
      )}
      <ul class="things">
        {open.map(one => (
          <Thing key={`${one.placed.device} ${one.placed.part}`} remaining={one} />
        ))}
        {settled.map(({ placed, paths }) => (
          <li key={`${placed.device} ${placed.part}`} class="thing settled">
            <p>
              {placed.name}
              {placed.count > 1 && <span class="count"> × {placed.count}</span>}
            </p>
            {paths.map(path => (
              <button key={path} type="button" onClick={() => go({ view: 'record', path })}>
                {say(path.startsWith('left') ? 'case.finish.said-stays' : 'case.finish.said-missing')}
              </button>
            ))}
          </li>
        ))}
      </ul>
    </section>
  );
}
