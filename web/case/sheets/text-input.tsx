import { useEffect, useRef, useState } from 'preact/hooks';
import { say } from '../../words.js';
import { nowIn, useDesk } from '../desk/desk.js';
import { SETTLE } from '../desk/guard.js';
import { isGroup, listAt, type Tree } from '../desk/tree.js';
import type { Term } from '../engine/terms.js';
import type { InputProps } from './field-input.js';
import { matching } from './matching.js';
import { Suggested } from './suggested.js';

/** What a text field shows of a value: the words of a concept with codes, a list with a line for each. */
function textOf(value: Tree | undefined, repeats: boolean): string {
  if (value === undefined) return '';
  if (repeats) return (Array.isArray(value) ? value : [value]).map(one => textOf(one, false)).join('\n');
  const plain = isGroup(value) ? value['text'] : value;
  return plain === undefined || typeof plain === 'object' ? '' : String(plain);
}

/** What a typed text makes of a value: codes beside the words stay only while the words do. */
function meant(text: string, repeats: boolean): Tree | undefined {
  if (!repeats) return text.trim() === '' ? undefined : text.trim();
  const lines = text
    .split('\n')
    .map(line => line.trim())
    .filter(line => line !== '');
  return lines.length === 0 ? undefined : lines;
}

/**
 * Text as the record has it. It is written when the field is left, on Enter, and when the page is hidden: whoever is
 * called away loses nothing. While somebody types, nothing that arrives changes what they typed.
 */
export function TextInput({ id, node, value, set, disabled }: InputProps) {
  const desk = useDesk();
  const { repeats } = node;
  const stands = textOf(value, repeats);
  const [typed, setTyped] = useState<string>();
  const [away, setAway] = useState(false);
  const now = useRef({ typed, stands, set });
  now.current = { typed, stands, set };
  // Names to touch stay where they are for a moment: what lies below them must not move under a finger that leaves here.
  const [leaving, setLeaving] = useState<readonly Term[]>([]);
  const leave = () => {
    if (found.length > 0) {
      setLeaving(found);
      setTimeout(() => setLeaving([]), SETTLE);
    }
    commit();
  };
  // A scanner is faster than what is drawn.
  const type = (text: string) => {
    now.current.typed = text;
    setTyped(text);
  };
  const commit = (text = now.current.typed) => {
    setTyped(undefined);
    now.current.typed = undefined;
    if (text !== undefined && text !== now.current.stands) now.current.set(meant(text, repeats));
  };
  useEffect(() => {
    const hidden = () => commit();
    document.addEventListener('visibilitychange', hidden);
    addEventListener('pagehide', hidden);
    return () => {
      document.removeEventListener('visibilitychange', hidden);
      removeEventListener('pagehide', hidden);
      // Another part of the page was opened over a field that was not left.
      commit();
    };
  }, []);
  const shown = typed ?? stands;
  const terms = node.terms === undefined ? [] : (desk.fields?.terms[node.terms] ?? []);
  const found = typed === undefined || away ? [] : matching(terms, typed);
  const common = {
    ...({ autocomplete: 'off', autocapitalize: 'off', spellcheck: false } as const),
    ...{ id, disabled, value: shown },
    'data-labels': LABELS.has(node.name) || undefined,
    'aria-describedby': node.help === undefined ? undefined : `${id}-help`,
    onBlur: leave,
  } as const;
  const long = repeats || LONG.has(node.name);
  return (
    <>
      {long ? (
        <textarea
          {...common}
          rows={repeats ? Math.max(2, listAt(value, '').length + 1) : 2}
          onInput={event => type(event.currentTarget.value)}
        />
      ) : (
        <input
          {...common}
          type={node.kind === 'date' ? 'date' : 'text'}
          inputMode={node.kind === 'whole' ? 'numeric' : 'text'}
          onInput={event => {
            setAway(false);
            type(event.currentTarget.value);
          }}
          onKeyDown={event => {
            if (event.key === 'Enter') commit();
            if (event.key === 'Escape') {
              setAway(true);
              setTyped(undefined);
            }
          }}
        />
      )}
      {node.example !== undefined && shown === '' && !node.moment && (
        <span class="hint example">{say('case.such-as', { example: node.example })}</span>
      )}
      {(node.moment || (node.example === '2024-03-14' && node.name !== 'birthDate')) && (
        <button type="button" class="beside" disabled={disabled} onClick={() => commit(nowIn(desk))}>
          {say('case.now')}
          <span class="unseen"> {node.label}</span>
        </button>
      )}
      <Suggested terms={found.length > 0 ? found : leaving} pick={commit} gone={found.length === 0} />
    </>
  );
}

/** Fields that what a scanner types may be meant for. */
const LABELS: ReadonlySet<string> = new Set(['label', 'udi']);

/** Fields of several sentences. */
const LONG: ReadonlySet<string> = new Set([
  'text',
  'note',
  'conclusion',
  'observations',
  'imaging',
  'question',
  'reason',
]);
