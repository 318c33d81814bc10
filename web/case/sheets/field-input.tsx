import type { ComponentChildren } from 'preact';
import { language, say } from '../../words.js';
import type { Tree } from '../desk/tree.js';
import type { SheetNode } from '../engine/sheets.js';
import { Choice, Keys, YesNo } from './choices.js';
import { TextInput } from './text-input.js';

export interface InputProps {
  readonly id: string;
  readonly node: SheetNode;
  readonly value: Tree | undefined;
  /** Undefined takes it out. */
  readonly set: (value: Tree | undefined) => void;
  readonly disabled?: boolean;
}

/** One field of the record, by what the schema says of it. */
export function FieldInput(props: InputProps & { readonly children?: ComponentChildren }) {
  const { id, node, value, children } = props;
  const { kind } = node;
  const asButtons = kind === 'choice' || kind === 'yes-no' || kind === 'none' || node.refers !== undefined;
  const help = node.help !== undefined && (
    <p class="hint" id={`${id}-help`} lang={language.startsWith('en') ? undefined : 'en'}>
      {node.help}
    </p>
  );
  if (kind === 'codes') return value === undefined ? null : <Codes label={node.label} value={value} />;
  if (asButtons)
    return (
      <fieldset class="field" data-field={id}>
        <legend>{node.label}</legend>
        {help}
        {kind === 'yes-no' ? <YesNo {...props} /> : node.refers ? <Keys {...props} /> : <Choice {...props} />}
        {children}
      </fieldset>
    );
  return (
    <div class="field" data-field={id}>
      <label for={id}>{node.label}</label>
      {help}
      <TextInput {...props} />
      {children}
    </div>
  );
}

/** Codes are read here and changed in the text of the record. */
function Codes({ label, value }: { readonly label: string; readonly value: Tree }) {
  const one = (code: Tree) =>
    typeof code === 'object' && !Array.isArray(code)
      ? [code['code'], code['display']].filter(part => typeof part === 'string').join(' ')
      : String(code);
  return (
    <p class="field">
      {label}: {(Array.isArray(value) ? value : [value]).map(one).join(', ')}{' '}
      <span class="hint">{say('case.codes-hint')}</span>
    </p>
  );
}
