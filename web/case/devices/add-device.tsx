import { useRef, useState } from 'preact/hooks';
import { deviceKey } from '../../../src/intake/device-key.js';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { groupAt } from '../desk/tree.js';
import { matching } from '../sheets/matching.js';
import { Suggested } from '../sheets/suggested.js';

/** A device by its name; names of the trade are suggested, others are taken as they are typed. */
export function AddDevice() {
  const { seen, fields, act, tell } = useDesk();
  const [typed, setTyped] = useState('');
  const input = useRef<HTMLInputElement>(null);
  const found = matching(fields?.terms.devices ?? [], typed);
  const add = async (kind: string) => {
    if (kind.trim() === '') return;
    const key = deviceKey(kind, new Set(Object.keys(groupAt(seen.tree, 'devices'))));
    if (!(await act([{ path: `devices.${key}`, value: { kind: kind.trim() } }]))) return;
    setTyped('');
    tell(say('case.added', { what: kind.trim() }));
    input.current?.focus();
  };
  return (
    <form
      class="add-device"
      onSubmit={event => {
        event.preventDefault();
        void add(typed);
      }}
    >
      <label for="add-device">{say('case.device-name')}</label>
      <input
        ref={input}
        id="add-device"
        value={typed}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        onInput={event => setTyped(event.currentTarget.value)}
      />
      <Suggested terms={found} pick={name => void add(name)} />
      <button type="submit" class="main" disabled={typed.trim() === ''}>
        {say('case.add-typed')}
      </button>
    </form>
  );
}
