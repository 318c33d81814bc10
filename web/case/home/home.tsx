import { useEffect, useState } from 'preact/hooks';
import { language, say } from '../../words.js';
import { ask } from '../ask/ask.js';
import { type NoService, openService, type Service } from '../desk/service.js';
import { NotOpenedView } from '../not-opened.js';
import { PersonBar, signInAddress } from '../person/person-bar.js';
import { useWho } from '../person/who.js';
import { CaseList } from './case-list.js';
import { FromOrder } from './from-order.js';
import { useLists } from './lists.js';
import { Search } from './search.js';

/** The cases of today and yesterday, by what they need next; a new one begins here. */
export function Home() {
  const [tries, setTries] = useState(0);
  const [service, setService] = useState<Service | NoService>();
  const [gone, setGone] = useState<{ readonly providerSignOut?: string }>();
  useEffect(() => {
    let over = false;
    void openService().then(found => over || setService(found));
    return () => {
      over = true;
    };
  }, [tries]);
  const again = () => setTries(tries + 1);
  if (gone) return <SignedOut {...gone} />;
  if (!service)
    return (
      <p class="opening" role="status">
        {say('case.opening')}
      </p>
    );
  if ('kind' in service)
    return service.kind === 'nobody' ? (
      <Nobody again={again} />
    ) : (
      <NotOpenedView id="" why={service} again={again} />
    );
  const left = (providerSignOut?: string) => {
    // What this page and its thread have in memory is not for whoever comes next.
    if (providerSignOut === undefined) location.reload();
    else setGone({ providerSignOut });
  };
  return <Cases service={service} left={left} again={again} />;
}

interface CasesProps {
  readonly service: Service;
  readonly left: (providerSignOut?: string) => void;
  readonly again: () => void;
}

function Cases({ service, left, again }: CasesProps) {
  const who = useWho();
  const { lists, trouble } = useLists(true);
  const { timeZone } = service;
  if (trouble?.status === 401 || trouble?.status === 403) return <Nobody again={again} />;
  return (
    <>
      <header class="home-head">
        <h1>{say('case.home.title')}</h1>
        {who && <PersonBar who={who} left={left} />}
      </header>
      <main lang={language} class="home">
        <div>
          <Begin by={who?.by} ready={who !== undefined} />
          <FromOrder
            by={who?.by}
            ready={who !== undefined}
            inside={service.register && who?.may('register') === true}
          />
        </div>
        <section aria-labelledby="recent">
          <h2 id="recent">{say('case.home.recent')}</h2>
          <p role="status">{trouble ? say('case.home.stale', { why: trouble.text }) : ''}</p>
          {lists ? (
            <>
              {lists.rows.length === 0 && <p class="none">{say('case.home.none')}</p>}
              <CaseList id="recent" rows={lists.rows} today={lists.today} timeZone={timeZone} />
              {lists.more && <p class="hint">{say('case.home.more')}</p>}
            </>
          ) : (
            !trouble && <p class="none">{say('case.opening')}</p>
          )}
        </section>
        <Search today={lists?.today} timeZone={timeZone} />
      </main>
      <footer class="foot">
        <a class="button" href={`review${location.search}`}>
          {say('case.home.review')}
        </a>
      </footer>
    </>
  );
}

/** Begins an empty case, once however often it is touched. */
function Begin({ by, ready }: { readonly by: string | undefined; readonly ready: boolean }) {
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState('');
  const begin = async () => {
    if (busy || !ready) return;
    setBusy(true);
    const answer = await ask<{ readonly id: string }>('v1/drafts', { record: '', by });
    setBusy(false);
    if (answer.ok) location.hash = answer.body.id;
    else setSaid(say('case.home.not-begun', { why: answer.text }));
  };
  return (
    <div class="begin">
      <button type="button" class="main" disabled={busy || !ready} onClick={() => void begin()}>
        {say('case.home.begin')}
      </button>
      <p role="status">{said}</p>
    </div>
  );
}

function Nobody({ again }: { readonly again: () => void }) {
  return (
    <main class="not">
      <h1>{say('case.home.title')}</h1>
      <p role="alert">{say('case.home.nobody')}</p>
      <a class="button" href={signInAddress()}>
        {say('case.sign-in')}
      </a>
      <button type="button" onClick={again}>
        {say('case.try-again')}
      </button>
    </main>
  );
}

function SignedOut({ providerSignOut }: { readonly providerSignOut?: string }) {
  return (
    <main class="not">
      <h1>{say('case.home.title')}</h1>
      <p role="alert">{say('screen.sign-in.out-provider')}</p>
      {providerSignOut !== undefined && (
        <a class="button" href={providerSignOut}>
          {say('case.person.out-provider')}
        </a>
      )}
      <a class="button" href={signInAddress()}>
        {say('case.sign-in')}
      </a>
    </main>
  );
}
