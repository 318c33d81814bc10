import { useState } from 'preact/hooks';
import type { PlacedRow } from '../../../src/pipeline/case-trays.js';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { DevicesBar } from '../devices/devices-bar.js';
import { Moments } from '../devices/moments.js';
import { Row } from './row.js';

const TRAYS = ['undecided', 'on the table', 'in the patient', 'out'] as const;
type Tray = (typeof TRAYS)[number];

export const rowId = ({ device, part, tray }: Pick<PlacedRow, 'device' | 'part' | 'tray'>): string =>
  `row-${tray.replaceAll(' ', '-')}-${device}${part === undefined ? '' : `-${part}`}`;

/** Where each thing is. */
export function TraysView() {
  const { seen, go } = useDesk();
  const [open, setOpen] = useState<string>();
  return (
    <div class="trays">
      <Moments />
      <DevicesBar />
      {seen.placed.length === 0 && seen.findings.length > 0 && (
        <div class="unread" role="alert">
          <p>{say('case.devices-unread')}</p>
          {seen.findings.slice(0, 3).map(found => (
            <p key={found.path + found.code}>
              {found.message} {found.remedy}
            </p>
          ))}
        </div>
      )}
      {seen.unread.length > 0 && (
        <div class="unread" role="status">
          <p>{say('case.left-out')}</p>
          {seen.unread.slice(0, 3).map(({ path, code, message, remedy }) => (
            <p key={path + code}>
              {message} {remedy}{' '}
              <button type="button" onClick={() => go({ view: 'record', path })}>
                {say('case.go-to', { what: path })}
              </button>
            </p>
          ))}
        </div>
      )}
      {TRAYS.map(tray => (
        <TrayList key={tray} tray={tray} open={open} setOpen={setOpen} />
      ))}
    </div>
  );
}

interface ListProps {
  readonly tray: Tray;
  readonly open: string | undefined;
  readonly setOpen: (id: string | undefined) => void;
}

function TrayList({ tray, open, setOpen }: ListProps) {
  const { seen } = useDesk();
  const rows = seen.placed.filter(one => one.tray === tray);
  if (tray === 'undecided' && rows.length === 0) return null;
  const id = `tray-${tray.replaceAll(' ', '-')}`;
  return (
    <section class={`tray ${id}`} aria-labelledby={id}>
      <h2 id={id}>
        {say(`case.tray.${tray}`)} <span class="count">{rows.length}</span>
      </h2>
      {tray === 'undecided' && <p>{say('case.undecided-hint')}</p>}
      {rows.length === 0 ? (
        <p class="none">{say('case.nothing-here')}</p>
      ) : (
        <ul>
          {rows.map(row => {
            const own = rowId(row);
            return (
              <Row
                key={own}
                id={own}
                placed={row}
                open={open === own}
                toggle={() => setOpen(open === own ? undefined : own)}
                done={() => setOpen(undefined)}
              />
            );
          })}
        </ul>
      )}
    </section>
  );
}
