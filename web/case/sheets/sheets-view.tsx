import { useEffect } from 'preact/hooks';
import { pathSegments, pathText } from '../../../src/record/path.js';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { at, briefly, listAt } from '../desk/tree.js';
import type { SheetNode } from '../engine/sheets.js';
import { DoseFile } from './dose-file.js';
import { NodeView } from './node-view.js';
import { stageNames, stages } from './stages.js';

/** Parts of the record that are written by the page and not typed. */
const NOT_SHOWN: ReadonlySet<string> = new Set(['devices', 'events', 'sources', 'acknowledged']);

/** Sheets in the order in which a case is entered; what the schema adds later stands at the end. */
const ORDER = Object.values(stages).flat();

/** The record beside the devices: a sheet for each part of it, made from the schema. */
export function SheetsView() {
  const { fields, where, go, seen } = useDesk();
  const path = where.path ?? '';
  const [part, place] = pathSegments(path);
  // Opened by itself, it shows what is entered now: first what is known before, then what is known at the end.
  const begun = listAt(seen.tree, 'events').length > 0;
  const stage = where.stage ?? (part === undefined ? (begun ? 'end' : 'before') : undefined);
  useFocusAt(path);
  if (!fields) return <p role="status">{say('case.opening')}</p>;
  const rank = ({ name }: SheetNode) => (ORDER.indexOf(name) + ORDER.length + 1) % (ORDER.length + 1);
  const sheets = fields.sheets
    .filter(({ name, kind }) => !NOT_SHOWN.has(name) && kind !== 'none')
    .sort((a, b) => rank(a) - rank(b));
  return (
    <div class="sheets">
      <nav aria-label={say('case.sheets')} class="sheet-names">
        {stageNames.map(name => (
          <button
            key={name}
            type="button"
            class="stage"
            aria-current={name === stage ? 'true' : undefined}
            onClick={() => go({ view: 'record', stage: name })}
          >
            {say(`case.stage.${name}`)}
          </button>
        ))}
        {sheets.map(({ name, label }) => (
          <button
            key={name}
            type="button"
            class={at(seen.tree, name) === undefined ? 'empty' : 'filled'}
            aria-current={name === part ? 'true' : undefined}
            onClick={() => go({ view: 'record', path: name })}
          >
            {label}
            <small>
              {at(seen.tree, name) === undefined
                ? say('case.empty')
                : briefly(at(seen.tree, name)).slice(0, 60)}
            </small>
          </button>
        ))}
      </nav>
      {stage !== undefined ? (
        <div class="sheet" key={stage}>
          {stages[stage].map(name => (
            <Part key={name} sheets={fields.sheets} path={name} />
          ))}
        </div>
      ) : (
        <Sheet key={String(part)} sheets={fields.sheets} part={String(part)} place={place} />
      )}
    </div>
  );
}

/** One part among others, under its own heading. */
function Part({ sheets, path }: { readonly sheets: readonly SheetNode[]; readonly path: string }) {
  const [name, ...steps] = path.split('.');
  const nodes = steps.reduce(
    (all, step) => all.flatMap(node => node.children.filter(child => child.name === step)),
    sheets.filter(node => node.name === name),
  );
  const field = nodes.every(({ kind, children }) => kind !== 'none' && children.length === 0);
  return (
    <section class="part" aria-label={nodes.at(-1)?.label}>
      {!field && <h2>{nodes.at(-1)?.label}</h2>}
      {name === 'radiation' && <DoseFile />}
      {nodes.map(node => (
        <NodeView key={node.kind + node.place} node={node} path={path} bare />
      ))}
    </section>
  );
}

interface SheetProps {
  readonly sheets: readonly SheetNode[];
  readonly part: string;
  readonly place: PropertyKey | undefined;
}

/** One part alone, or one device or event: the list of all of them is the first view. */
function Sheet({ sheets, part, place }: SheetProps) {
  const own = sheets.filter(({ name }) => name === part);
  const entry = own.find(({ name }) => NOT_SHOWN.has(name));
  const base = entry && place !== undefined ? pathText([part, place]) : undefined;
  if (own.length === 0) return <p class="hint">{say('case.choose-sheet')}</p>;
  return (
    <section class="sheet" key={base ?? part} aria-labelledby="sheet">
      <h2 id="sheet">{base ?? own.at(-1)?.label}</h2>
      {part === 'radiation' && <DoseFile />}
      {entry && base !== undefined ? (
        <NodeView node={{ ...entry, kind: 'group', required: false, repeats: false }} path={base} bare />
      ) : (
        own.map(node => <NodeView key={node.place} node={node} path={node.name} bare />)
      )}
    </section>
  );
}

/** Brings the field at a path into sight, and the focus into it. */
function useFocusAt(path: string): void {
  const { where } = useDesk();
  useEffect(() => {
    if (path === '') return;
    const steps = pathSegments(path);
    for (let n = steps.length; n > 0; n -= 1) {
      const found = document.querySelector(`[data-path="${CSS.escape(pathText(steps.slice(0, n)))}"]`);
      if (!found) continue;
      for (let up = found.parentElement; up; up = up.parentElement)
        if (up instanceof HTMLDetailsElement) up.open = true;
      found.scrollIntoView({ block: 'center' });
      const first = found.querySelector('input, textarea, button, summary');
      if (first instanceof HTMLElement) first.focus({ preventScroll: true });
      return;
    }
  }, [path, where]);
}
