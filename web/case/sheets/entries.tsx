import { useEffect, useRef, useState } from 'preact/hooks';
import { deviceKey } from '../../../src/intake/device-key.js';
import { pathText } from '../../../src/record/path.js';
import { language, say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { briefly, groupAt, listAt, type Tree } from '../desk/tree.js';
import type { Edit } from '../engine/work.js';
import { FieldFindings } from './field-findings.js';
import { GroupFields } from './group-fields.js';
import type { NodeProps, ViewOf } from './node.js';
import { Proposals } from './proposals.js';
import { SameTeam } from './same-team.js';

/** Entries of a list, or of a group under keys: add, remove, put into another order. */
export function Entries({ node, path, bare = false, view }: NodeProps & { readonly view: ViewOf }) {
  const { seen, act, open } = useDesk();
  const [shown, setShown] = useState<string>();
  const [added, setAdded] = useState<string>();
  const fields = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // What is added is added to say something: the first thing that can be typed waits for it.
    if (added === undefined || !fields.current) return;
    fields.current.querySelector<HTMLElement>('input:not(:disabled), textarea:not(:disabled)')?.focus();
    setAdded(undefined);
  });
  const showAdded = (place: string) => {
    setShown(place);
    setAdded(place);
  };
  const keyed = node.kind === 'keyed';
  const list = listAt(seen.tree, path);
  const group = groupAt(seen.tree, path);
  const entries: readonly { readonly place: string; readonly value: Tree; readonly name: string }[] = keyed
    ? Object.entries(group).map(([key, value]) => ({ place: `${path}.${key}`, value, name: key }))
    : list.map((value, index) => ({ place: `${path}[${index}]`, value, name: `${index + 1}` }));
  const add = async () => {
    const used = new Set([...Object.keys(group), ...list.map(entry => briefly(groupAt(entry, '')['key']))]);
    const key = deviceKey(KEYS[node.name] ?? node.name, used);
    if (keyed) {
      if (await act([{ path: pathText([...path.split('.'), key]), value: {} }])) showAdded(`${path}.${key}`);
      return;
    }
    const value: Tree = node.children.some(({ name, required }) => name === 'key' && required) ? { key } : {};
    if (await act([{ path, insert: 'end', value }])) showAdded(`${path}[${list.length}]`);
  };
  const remove = (place: string) => {
    setShown(undefined);
    const last = entries.length === 1;
    void act([{ path: last ? path : place, remove: true }]);
  };
  const move = (index: number, by: number) => {
    const value = list[index];
    if (value === undefined) return;
    const edits: Edit[] = [
      { path: `${path}[${index}]`, remove: true },
      index + by >= list.length - 1 ? { path, insert: 'end', value } : { path, insert: index + by, value },
    ];
    void act(edits).then(made => made && setShown(`${path}[${index + by}]`));
  };
  const heading = !bare && <h3>{node.label}</h3>;
  return (
    <div class="entries" data-path={path}>
      {heading}
      {node.help !== undefined && (
        <p class="hint" lang={language.startsWith('en') ? undefined : 'en'}>
          {node.help}
        </p>
      )}
      <FieldFindings path={path} />
      {node.kind === 'list' && <Proposals node={node} path={path} />}
      {path === 'team' && <SameTeam />}
      {entries.map(({ place, value, name }, index) => (
        <div key={place} class="entry" data-path={place}>
          <button
            type="button"
            class="row-open"
            aria-expanded={shown === place}
            onClick={() => setShown(shown === place ? undefined : place)}
          >
            <span class="count">{name}</span> {briefly(value).slice(0, 100) || say('case.empty')}
          </button>
          {shown === place && (
            <div class="row-more" ref={fields}>
              <GroupFields node={node} path={place} view={view} />
              {open && (
                <div class="offers">
                  {!keyed && index > 0 && (
                    <button type="button" onClick={() => move(index, -1)}>
                      {say('case.move-up')}
                    </button>
                  )}
                  {!keyed && index < list.length - 1 && (
                    <button type="button" onClick={() => move(index, 1)}>
                      {say('case.move-down')}
                    </button>
                  )}
                  <button type="button" class="danger" onClick={() => remove(place)}>
                    {say('case.remove')}
                  </button>
                </div>
              )}
            </div>
          )}
        </div>
      ))}
      {open && (
        <button type="button" onClick={() => void add()}>
          {say('case.add-entry', { what: node.label })}
        </button>
      )}
    </div>
  );
}

/** What keys of new entries begin with. */
const KEYS: Readonly<Record<string, string>> = {
  targets: 'target',
  team: 'person',
  specimens: 'specimen',
  images: 'image',
};
