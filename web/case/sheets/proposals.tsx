import { say } from '../../words.js';
import { addTo } from '../close/entries.js';
import { nowIn, useDesk } from '../desk/desk.js';
import { briefly, isGroup, type Tree } from '../desk/tree.js';
import type { SheetNode } from '../engine/sheets.js';

/** What a kit or another system proposes for a part of the record: one touch takes it over, as of now. */
export function Proposals({ node, path }: { readonly node: SheetNode; readonly path: string }) {
  const desk = useDesk();
  const { seen, act, open } = desk;
  const here = seen.proposed.filter(one => one.path === path);
  if (!open || here.length === 0) return null;
  const take = (value: Tree) => {
    if (node.kind !== 'list') return void act([{ path, value }]);
    const timed = node.children.some(({ name, required, moment }) => name === 'at' && required && moment);
    const entry = isGroup(value) ? { ...(timed && { at: nowIn(desk) }), ...value } : {};
    void act([addTo(seen.tree, path, entry)]);
  };
  return (
    <ul class="proposals">
      {here.map(({ from, value }, index) => (
        <li key={index}>
          <p>
            <span class="hint">{say('case.proposed-by', { from })}</span> {briefly(value)}
          </p>
          <button type="button" class="take" onClick={() => take(value)}>
            {say('case.line.take')}
          </button>
        </li>
      ))}
    </ul>
  );
}
