import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { at, briefly, isGroup, listAt, nameOf, type Tree, textAt } from '../desk/tree.js';
import type { Referred } from '../engine/sheets.js';
import { nameIn } from '../trays/names.js';
import type { InputProps } from './field-input.js';
import { TextInput } from './text-input.js';

interface Option {
  readonly word: string;
  readonly said: string;
}

/** Buttons of which one is pressed, or any number; pressed again it is taken back, so that nothing is ever stuck. */
function Buttons({
  options,
  value,
  set,
  disabled,
  several,
}: Omit<InputProps, 'id' | 'node'> & { readonly options: readonly Option[]; readonly several: boolean }) {
  const chosen = value === undefined ? [] : (Array.isArray(value) ? value : [value]).map(String);
  const toggle = (word: string) => {
    const had = chosen.includes(word);
    if (!several) return set(had ? undefined : word);
    const next = had ? chosen.filter(one => one !== word) : [...chosen, word];
    set(next.length === 0 ? undefined : next);
  };
  return (
    <div class="choices">
      {options.map(({ word, said }) => (
        <button
          key={word}
          type="button"
          disabled={disabled}
          aria-pressed={chosen.includes(word)}
          onClick={() => toggle(word)}
        >
          {said}
        </button>
      ))}
    </div>
  );
}

/** Words of the schema as buttons; where others may be typed, a field beside them. */
export function Choice(props: InputProps) {
  const { node, value, set, disabled = false } = props;
  const words = node.words ?? [];
  const typed = typeof value === 'string' && !words.some(({ word }) => word === value) ? value : undefined;
  return (
    <>
      <Buttons {...{ value, set, disabled }} options={words} several={node.repeats} />
      {(node.open || typed !== undefined) && (
        <>
          <label class="unseen" for={props.id}>
            {node.label}
          </label>
          <TextInput {...props} value={typed} />
        </>
      )}
    </>
  );
}

/** The record may have it as true and false, or as people write it. */
export function YesNo({ value, set, disabled = false }: InputProps) {
  const stands = value === undefined ? undefined : ['true', 'yes'].includes(String(value)) ? 'yes' : 'no';
  return (
    <Buttons
      {...{ value: stands, set, disabled }}
      several={false}
      options={[
        { word: 'yes', said: say('case.yes') },
        { word: 'no', said: say('case.no') },
      ]}
    />
  );
}

/** Entries of the record that a key may name. */
export function Keys({ node, value, set, disabled = false }: InputProps) {
  const { seen } = useDesk();
  const options = keysOf(node.refers ?? 'devices', seen.tree, nameIn(seen.placed, seen.tree));
  const held = value === undefined ? [] : (Array.isArray(value) ? value : [value]).map(String);
  const unknown = held
    .filter(key => !options.some(({ word }) => word === key))
    .map(word => ({ word, said: word }));
  if (options.length === 0 && unknown.length === 0) return <p class="hint">{say('case.none-to-choose')}</p>;
  return <Buttons {...{ value, set, disabled }} options={[...options, ...unknown]} several={node.repeats} />;
}

export function keysOf(
  of: Referred,
  tree: Tree | undefined,
  device: (key: string) => string,
): readonly Option[] {
  if (of === 'devices' || of === 'targets') {
    const entries = at(tree, of);
    if (!isGroup(entries)) return [];
    return Object.entries(entries).map(([word, entry]) => ({
      word,
      said: of === 'devices' ? device(word) : briefly(at(entry, 'what')) || word,
    }));
  }
  return listAt(tree, of).flatMap(entry => {
    const word = textAt(entry, 'key');
    if (word === undefined) return [];
    const what = ['name', 'site', 'what', 'description']
      .map(name => at(entry, name))
      .find(one => one !== undefined);
    return [{ word, said: (of === 'team' ? nameOf(what) : briefly(what)) || word }];
  });
}
