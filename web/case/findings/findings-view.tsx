import { useState } from 'preact/hooks';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { textAt } from '../desk/tree.js';
import type { ShownFinding } from '../engine/work.js';

/** What stands against the case, by harm to the patient, worst first. */
export function FindingsView() {
  const { checked } = useDesk();
  if (!checked) return <p role="status">{say('case.checking')}</p>;
  const { findings } = checked;
  const isError = ({ severity }: ShownFinding) => severity === 'error' || severity === 'fatal';
  const parts = [
    { name: 'errors', found: findings.filter(isError) },
    { name: 'warnings', found: findings.filter(one => one.severity === 'warning' && !one.acknowledged) },
    { name: 'notes', found: findings.filter(one => one.severity === 'information' && !one.acknowledged) },
    { name: 'accepted', found: findings.filter(one => one.acknowledged) },
  ] as const;
  return (
    <div class="findings">
      <p class="hint">{say('case.findings-hint')}</p>
      {findings.length === 0 && <p role="status">{say('case.no-findings')}</p>}
      {parts
        .filter(({ found }) => found.length > 0)
        .map(({ name, found }) => (
          <section key={name} aria-labelledby={`found-${name}`}>
            <h2 id={`found-${name}`}>
              {say(`case.found.${name}`)} <span class="count">{found.length}</span>
            </h2>
            <ul>
              {found.map((one, index) => (
                <FindingRow key={`${one.code} ${one.path} ${index}`} found={one} />
              ))}
            </ul>
          </section>
        ))}
    </div>
  );
}

function FindingRow({ found }: { readonly found: ShownFinding }) {
  const { go, seen, open } = useDesk();
  const [accepting, setAccepting] = useState(false);
  const { severity, message, remedy, path, acknowledged } = found;
  const device = /^devices\.([\w-]+)$/.exec(path)?.[1];
  const acceptable = severity === 'warning' && !acknowledged && open;
  return (
    <li class={`finding ${severity}`}>
      <p>
        <strong>{say(`case.severity.${severity}`)}</strong> {message}
      </p>
      <p>{acknowledged ? say('case.accepted-since', { reason: acknowledged.reason }) : remedy}</p>
      <div class="offers">
        {path !== '' && (
          <button type="button" onClick={() => go({ view: 'record', path })}>
            {say('case.go-to', {
              what: placeOf(path, device && textAt(seen.tree, `devices.${device}.kind`)),
            })}
          </button>
        )}
        {acceptable && (
          <button type="button" aria-expanded={accepting} onClick={() => setAccepting(!accepting)}>
            {say('case.accept')}
          </button>
        )}
      </div>
      {accepting && acceptable && <Accept found={found} />}
    </li>
  );
}

const placeOf = (path: string, name: string | undefined): string =>
  name === undefined ? path : `${name} (${path})`;

/** A warning is accepted with the reason, which the report prints. */
function Accept({ found }: { readonly found: ShownFinding }) {
  const { act, seen } = useDesk();
  const [reason, setReason] = useState('');
  const accept = () => {
    if (reason.trim() === '') return;
    // Places of entries move when others go; the device that the entry names does not.
    const event = /^(events|left)\[\d+\]/.exec(found.path)?.[0];
    const about = (event && textAt(seen.tree, `${event}.device`)) ?? found.path;
    const value = { finding: found.code, ...(about !== '' && { about }), reason: reason.trim() };
    void act([{ path: 'acknowledged', insert: 'end', value }]);
  };
  const id = `reason-${found.code}-${found.path}`.replace(/[^\w-]+/g, '-');
  return (
    <form
      onSubmit={event => {
        event.preventDefault();
        accept();
      }}
    >
      <label for={id}>{say('case.reason')}</label>
      <input
        id={id}
        value={reason}
        autocomplete="off"
        onInput={event => setReason(event.currentTarget.value)}
      />
      <button type="submit" class="main" disabled={reason.trim() === ''}>
        {say('case.accept-so')}
      </button>
    </form>
  );
}
