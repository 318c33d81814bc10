import { useEffect } from 'preact/hooks';
import { language, say } from '../words.js';
import { Conflict } from './conflict.js';
import { DeskContext, useDesk, type Where } from './desk/desk.js';
import { type Opened, useCase } from './desk/use-case.js';
import { EventsView } from './events/events-view.js';
import { FindingsView } from './findings/findings-view.js';
import { FinishView } from './finish/finish-view.js';
import { Head } from './head.js';
import { LineBar } from './lines/line-bar.js';
import { NotOpenedView } from './not-opened.js';
import { SheetsView } from './sheets/sheets-view.js';
import { TextView } from './text/text-view.js';
import { TraysView } from './trays/trays-view.js';

const VIEWS = ['devices', 'record', 'check', 'text', 'finish'] as const satisfies readonly Where['view'][];

/** One case: where each thing is, what was done, and what the record says beside. */
export function CaseView({ id }: { readonly id: string }) {
  const opened = useCase(id);
  if (opened.kind === 'opening')
    return (
      <p class="opening" role="status">
        {say('case.opening')}
      </p>
    );
  if (opened.kind === 'not') return <NotOpenedView id={id} why={opened.why} again={opened.again} />;
  return <OpenCase id={id} {...opened} />;
}

type OpenProps = Extract<Opened, { kind: 'open' }> & { readonly id: string };

function OpenCase({ id, desk, people, told }: OpenProps) {
  const { where, go, view } = desk;
  useEffect(() => {
    // Led here to sign, or back from signing in for it.
    if (location.hash.endsWith('/finish')) go({ view: 'finish' });
  }, []);
  useEffect(() => {
    if (view.saving.kind === 'saved') return undefined;
    const ask = (event: BeforeUnloadEvent) => event.preventDefault();
    addEventListener('beforeunload', ask);
    return () => removeEventListener('beforeunload', ask);
  }, [view.saving.kind]);
  return (
    <DeskContext.Provider value={desk}>
      <Head people={people} told={told} />
      <nav aria-label={say('case.views')} class="views">
        {VIEWS.map(one => (
          <button
            key={one}
            type="button"
            aria-current={one === where.view ? 'page' : undefined}
            onClick={() => go({ view: one })}
          >
            {say(`case.view.${one}`)}
            {one === 'check' && <Standing />}
          </button>
        ))}
      </nav>
      <main lang={language} class={`view-${where.view}`}>
        {view.saving.kind === 'conflict' && <Conflict conflicts={view.saving.conflicts} />}
        {/* Hidden and not taken away: what is typed or open there stays while another part is looked at. */}
        <div class="table" hidden={where.view !== 'devices'}>
          <TraysView />
          <EventsView />
          <LineBar />
        </div>
        {where.view === 'record' && <SheetsView />}
        {where.view === 'check' && <FindingsView />}
        {where.view === 'finish' && <FinishView id={id} />}
        <div hidden={where.view !== 'text'}>
          <TextView />
        </div>
      </main>
      <footer class="foot">
        <a class="button" href={`case${location.search}`}>
          {say('case.home.all')}
        </a>
      </footer>
    </DeskContext.Provider>
  );
}

/** How much stands against the case; its place is kept while that is not known. */
function Standing() {
  const { checked } = useDesk();
  const count = (of: (severity: string) => boolean) =>
    (checked?.findings ?? []).filter(one => of(one.severity) && !one.acknowledged).length;
  const errors = count(severity => severity === 'error' || severity === 'fatal');
  const warnings = count(severity => severity === 'warning');
  if (!checked) return <small>{'\u00a0'}</small>;
  return (
    <small>
      {errors > 0 || warnings === 0
        ? say('case.standing.errors', { n: errors })
        : say('case.standing.warnings', { n: warnings })}
    </small>
  );
}
