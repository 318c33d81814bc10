import { useState } from 'preact/hooks';
import { say } from '../../words.js';
import { ask } from '../ask/ask.js';
import { CaseList } from './case-list.js';
import type { CaseRow } from './lists.js';

interface Found {
  readonly since: string;
  readonly drafts: readonly CaseRow[];
  readonly more: boolean;
}

/** Looks for cases of the last 30 days. What is looked for goes in the body: addresses stand in logs. */
export function Search({
  today,
  timeZone,
}: {
  readonly today: string | undefined;
  readonly timeZone: string | undefined;
}) {
  const [words, setWords] = useState('');
  const [found, setFound] = useState<Found>();
  const [said, setSaid] = useState('');
  const look = async () => {
    const find = words.trim();
    if (find === '') return;
    setSaid(say('case.home.searching'));
    const answer = await ask<Found>('v1/drafts/search', { json: { find } });
    setFound(answer.ok ? answer.body : undefined);
    setSaid(
      answer.ok
        ? say('case.home.found', { n: answer.body.drafts.length, since: answer.body.since })
        : answer.text,
    );
  };
  const clear = () => {
    setWords('');
    setFound(undefined);
    setSaid('');
  };
  return (
    <section class="search" aria-labelledby="search">
      <h2 id="search">{say('case.home.search')}</h2>
      <form
        onSubmit={event => {
          event.preventDefault();
          void look();
        }}
      >
        <label for="find">{say('case.home.find')}</label>
        <div class="beside-field">
          <input
            id="find"
            type="search"
            value={words}
            autocomplete="off"
            spellcheck={false}
            maxLength={200}
            onInput={event => setWords(event.currentTarget.value)}
          />
          <button type="submit">{say('case.home.look')}</button>
        </div>
      </form>
      <p role="status">{said}</p>
      {found && (
        <>
          <CaseList id="found" rows={found.drafts} today={today} timeZone={timeZone} />
          {found.more && <p class="hint">{say('case.home.more')}</p>}
          <button type="button" onClick={clear}>
            {say('case.home.clear')}
          </button>
        </>
      )}
    </section>
  );
}
