import { useState } from 'preact/hooks';
import { say } from '../words.js';
import type { NotOpened } from './desk/open-case.js';
import { keepName, type NoService } from './desk/service.js';
import { SignIn } from './head.js';

interface Props {
  readonly id: string;
  readonly why: NotOpened | NoService;
  readonly again: () => void;
}

/** Why a case is not shown, and what helps. */
export function NotOpenedView({ why, again }: Props) {
  if (why.kind === 'name') return <WhoIsThere then={again} />;
  const text =
    why.kind === 'refused'
      ? say('case.saving.refused', { why: why.why })
      : why.kind === 'missing' || why.kind === 'nobody'
        ? say(`case.not.${why.kind}`)
        : say('case.not.away');
  return (
    <main class="not">
      <h1>{say('case.title')}</h1>
      <p role="alert">{text}</p>
      {why.kind === 'nobody' && <SignIn />}
      <button type="button" onClick={again}>
        {say('case.try-again')}
      </button>
    </main>
  );
}

/** Where nobody signs in, who is at the page says their name: it stands beside what they enter. */
function WhoIsThere({ then }: { readonly then: () => void }) {
  const [name, setName] = useState('');
  const given = () => {
    if (name.trim() === '') return;
    keepName(name.trim().slice(0, 100));
    then();
  };
  return (
    <main class="not">
      <h1>{say('case.title')}</h1>
      <form
        onSubmit={event => {
          event.preventDefault();
          given();
        }}
      >
        <label for="who">{say('case.your-name')}</label>
        <input
          id="who"
          value={name}
          autocomplete="off"
          onInput={event => setName(event.currentTarget.value)}
        />
        <p class="hint">{say('case.your-name-hint')}</p>
        <button type="submit" class="main">
          {say('case.go-on')}
        </button>
      </form>
    </main>
  );
}
