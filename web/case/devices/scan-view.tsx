import { useEffect, useRef, useState } from 'preact/hooks';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import type { OpenScan } from '../engine/scan.js';
import type { ShownScan } from '../engine/work.js';
import { matching } from '../sheets/matching.js';
import { Suggested } from '../sheets/suggested.js';
import { nameIn } from '../trays/names.js';
import { catalogueRows } from './catalogue.js';
import { watchScanner } from './watch-scanner.js';

const NOTHING_OPEN: OpenScan = { waiting: [] };

/** Labels as they are scanned: one after the other, each held against the record as it is by then. */
export function ScanView() {
  const desk = useDesk();
  const now = useRef(desk);
  now.current = desk;
  const [step, setStep] = useState<ShownScan>();
  const open = useRef(NOTHING_OPEN);
  const queue = useRef<Promise<void>>(Promise.resolve());
  const scan = (line: string) => {
    queue.current = queue.current.then(async () => {
      const { session, service } = now.current;
      const { text } = session.view();
      const given = { text, open: open.current, line, now: service.clock.now() };
      let made = await service.engine.scan(given);
      // What it is does not stand on a label; the catalogue may know. Somebody who says what it is knows better.
      const di = made.open.unnamed?.label.di;
      const asked = di === undefined || di === given.open.unnamed?.label.di;
      const rows = asked ? [] : await catalogueRows(di);
      if (rows.length > 0) made = await service.engine.scan({ ...given, rows });
      const not = made.text === undefined ? undefined : await session.replace(text, made.text);
      if (not) return now.current.tell(say('case.not-made'));
      open.current = made.open;
      setStep(made);
    });
    queue.current = queue.current.catch(() => now.current.tell(say('case.not-made')));
  };
  useEffect(() => watchScanner(symbol => now.current.open && scan(symbol)), []);
  const end = () => {
    open.current = NOTHING_OPEN;
    setStep(undefined);
  };
  return step ? <ScanStepView step={step} scan={scan} end={end} /> : null;
}

interface StepProps {
  readonly step: ShownScan;
  readonly scan: (line: string) => void;
  readonly end: () => void;
}

function ScanStepView({ step, scan, end }: StepProps) {
  const { seen } = useDesk();
  const { outcome, key, label = '', findings } = step;
  const name = key === undefined ? label : `${nameIn(seen.placed, seen.tree)(key)} (${label})`;
  const unnamed = step.open.unnamed !== undefined && outcome !== 'asks' && outcome !== 'same-serial';
  return (
    <div class={`scanned scanned-${outcome}`}>
      <p role="status">{unnamed ? say('case.scan.unnamed', { label }) : said(outcome, name)}</p>
      {findings.map(found => (
        <p key={found.code + found.path} class={`finding ${found.severity}`}>
          {found.message} {found.remedy}
        </p>
      ))}
      {unnamed && <WhatIsIt scan={scan} />}
      <div class="offers">
        {outcome === 'asks' && (
          <>
            <button type="button" class="main" onClick={() => scan('yes')}>
              {say('case.scan.one-more')}
            </button>
            <button type="button" onClick={() => scan('no')}>
              {say('case.scan.same')}
            </button>
          </>
        )}
        {outcome !== 'asks' && (
          <button type="button" onClick={end}>
            {say(unnamed || step.open.waiting.length > 0 ? 'case.scan.leave' : 'case.close')}
          </button>
        )}
      </div>
    </div>
  );
}

function said(outcome: ShownScan['outcome'], name: string): string {
  switch (outcome) {
    case 'new':
    case 'joined':
    case 'named':
    case 'again':
      return say(`case.scan.${outcome}`, { what: name });
    case 'asks':
    case 'same-serial':
      return say(`case.scan.${outcome}`, { what: name });
    case 'waits':
    case 'not-read':
    case 'not-counted':
      return say(`case.scan.${outcome}`);
    default:
      return '';
  }
}

/** The label does not say what the device is. */
function WhatIsIt({ scan }: { readonly scan: (line: string) => void }) {
  const { fields } = useDesk();
  const [typed, setTyped] = useState('');
  const found = matching(fields?.terms.devices ?? [], typed);
  return (
    <div class="add-device">
      <label for="what-is-it">{say('case.scan.what')}</label>
      <input
        id="what-is-it"
        value={typed}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        onInput={event => setTyped(event.currentTarget.value)}
      />
      <Suggested terms={found} pick={scan} />
    </div>
  );
}
