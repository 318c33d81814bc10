import { useState } from 'preact/hooks';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { at, isGroup, type Tree } from '../desk/tree.js';
import type { SheetNode } from '../engine/sheets.js';
import { FieldFindings } from './field-findings.js';
import { FieldInput } from './field-input.js';
import { idOf, type ViewOf } from './node.js';

interface Props {
  readonly node: SheetNode;
  readonly path: string;
  readonly view: ViewOf;
}

/** Sheets that are short enough to be shown whole. */
const FEW = 7;

/** What nearly every case says (common practice, no source): shown whether or not it holds something yet. */
const USUAL: ReadonlySet<string> = new Set([
  ...['id', 'kind', 'procedure', 'status', 'urgency', 'started', 'ended', 'location'].map(
    name => `case.${name}`,
  ),
  ...['name', 'birthDate', 'identifiers', 'sex', 'weight', 'pregnant'].map(name => `patient.${name}`),
  ...['allergies', 'anticoagulants', 'labs', 'consent', 'checklist'].map(name => `before.${name}`),
  ...['drug', 'dose', 'strength', 'route', 'at', 'for'].map(name => `drugs.${name}`),
  ...['site', 'side', 'approach', 'guidance', 'closure'].map(name => `access.${name}`),
  ...['what', 'side', 'lesion', 'success'].map(name => `targets.${name}`),
  ...['agent', 'volume', 'route'].map(name => `contrast.${name}`),
  ...['what', 'from', 'count', 'at', 'sentFor'].map(name => `specimens.${name}`),
  ...['overall', 'text', 'condition', 'disposition'].map(name => `outcome.${name}`),
  ...['do', 'device', 'every', 'due', 'latest', 'when', 'by'].map(name => `aftercare.${name}`),
  ...['device', 'purpose', 'site', 'set', 'until', 'latest'].map(name => `left.${name}`),
]);

/** Fields of a group: those that hold something or have to, the rest under `more`. */
export function GroupFields({ node, path, view }: Props) {
  const { seen } = useDesk();
  const value = at(seen.tree, path);
  const { short, children } = node;
  const holds = ({ name }: SheetNode) => at(value, name) !== undefined;
  const shown = (child: SheetNode) =>
    // The page writes keys by itself, and nothing but other parts of the record reads them.
    child.name !== 'key' &&
    (child.required || holds(child) || children.length <= FEW || USUAL.has(child.place));
  // As the sheet is opened: a field stays where it is while somebody fills it in.
  const [names] = useState(() => new Set(children.filter(shown).map(({ name }) => name)));
  // In place of the group the record may have one text: its parts would have to take its place.
  if (short !== undefined && value !== undefined && !isGroup(value))
    return <Short {...{ node, path, value, short }} />;
  const first = children.filter(({ name }) => names.has(name));
  const rest = children.filter(({ name }) => !names.has(name));
  const one = (child: SheetNode) => {
    const text = short === 'text' && child.place === `${node.place}.text`;
    return text ? (
      <Short key={child.place} {...{ node, path, short, value: undefined }} />
    ) : (
      view(child, `${path}.${child.name}`)
    );
  };
  return (
    <div class="fields" data-path={path}>
      <FieldFindings path={path} />
      {first.map(one)}
      {rest.length > 0 && (
        <details class="more" open={first.length === 0}>
          <summary>{say('case.more-fields', { n: rest.length })}</summary>
          {rest.map(one)}
        </details>
      )}
    </div>
  );
}

interface ShortProps extends Omit<Props, 'view'> {
  readonly short: string;
  readonly value: Tree | undefined;
}

/** The one text that stands for the group; where the group has more fields, they may be added beside it. */
function Short({ node, path, short, value }: ShortProps) {
  const { act, open } = useDesk();
  const text = node.children.find(({ name }) => name === short);
  if (!text) return null;
  const set = (next: Tree | undefined) =>
    void act([next === undefined ? { path, remove: true } : { path, value: next }]);
  return (
    <div class="fields" data-path={path}>
      <FieldInput
        id={idOf(path)}
        node={{ ...text, label: short === 'text' ? node.label : text.label }}
        value={value}
        set={set}
        disabled={!open}
      >
        <FieldFindings path={path} whole />
      </FieldInput>
      {short !== 'text' && open && value !== undefined && (
        <button type="button" onClick={() => void act([{ path, value: { [short]: value } }])}>
          {say('case.more-fields', { n: node.children.length - 1 })}
        </button>
      )}
    </div>
  );
}
