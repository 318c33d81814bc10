import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { at, isGroup, type Tree } from '../desk/tree.js';
import { Entries } from './entries.js';
import { FieldFindings } from './field-findings.js';
import { FieldInput } from './field-input.js';
import { GroupFields } from './group-fields.js';
import { idOf, type NodeProps, type ViewOf } from './node.js';
import { Proposals } from './proposals.js';

/** One part of the record at a path: a field, a group of them, or a list. */
export function NodeView({ node, path, bare = false }: NodeProps) {
  const { seen, act, open } = useDesk();
  const value = at(seen.tree, path);
  const set = (next: Tree | undefined) => {
    if (next !== undefined) void act([{ path, value: next }]);
    else if (value !== undefined) void act([{ path, remove: true }]);
  };
  if (node.kind === 'none') {
    // Said by one touch, and never said by itself; where entries stand, there is something.
    const said = value === 'none';
    if (value !== undefined && !said) return null;
    return (
      <div class="field" data-path={said ? path : undefined}>
        <button
          type="button"
          class="none-button"
          disabled={!open}
          aria-pressed={said}
          onClick={() => set(said ? undefined : 'none')}
        >
          {say('case.none-of', { what: node.label })}
        </button>
        {said && <FieldFindings path={path} whole />}
      </div>
    );
  }
  if (value === 'none' && (node.kind === 'list' || node.kind === 'group')) return null;
  if (node.kind === 'list' || node.kind === 'keyed')
    return <Entries node={node} path={path} bare={bare} view={view} />;
  if (node.kind === 'group') {
    const inner = (
      <>
        <Proposals node={node} path={path} />
        <GroupFields node={node} path={path} view={view} />
      </>
    );
    if (bare) return inner;
    return (
      <details class="group" data-path={path} open={value !== undefined}>
        <summary>{node.label}</summary>
        {inner}
      </details>
    );
  }
  return (
    <div data-path={path}>
      <Proposals node={node} path={path} />
      <FieldInput id={idOf(path)} node={node} value={value} set={set} disabled={!open}>
        <FieldFindings path={path} whole />
      </FieldInput>
      {node.kind !== 'coded' && isGroup(value) && <p class="hint">{say('case.in-text')}</p>}
    </div>
  );
}

const view: ViewOf = (node, path) => <NodeView key={`${node.kind}${node.place}`} node={node} path={path} />;
