import { useState } from 'preact/hooks';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { AddDevice } from './add-device.js';
import { KitsView } from './kits-view.js';
import { ScanView } from './scan-view.js';

/** Ways to put a device on the table. */
export function DevicesBar() {
  const { open } = useDesk();
  const [adding, setAdding] = useState<'name' | 'kit'>();
  if (!open) return null;
  const toggle = (what: 'name' | 'kit') => setAdding(adding === what ? undefined : what);
  return (
    <section class="adding" aria-label={say('case.add-devices')}>
      <div class="offers">
        {(['name', 'kit'] as const).map(what => (
          <button key={what} type="button" aria-expanded={adding === what} onClick={() => toggle(what)}>
            {say(`case.add.${what}`)}
          </button>
        ))}
        <p class="hint">{say('case.scan-hint')}</p>
      </div>
      {adding === 'name' && <AddDevice />}
      {adding === 'kit' && <KitsView done={() => setAdding(undefined)} />}
      <ScanView />
    </section>
  );
}
