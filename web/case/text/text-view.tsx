import { useEffect, useRef, useState } from 'preact/hooks';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';

/** The record itself. While nobody types in it, it is what the page shows; what is typed is taken over by a touch. */
export function TextView() {
  const { session, seen, open, tell } = useDesk();
  const [typed, setTyped] = useState<{ readonly from: string; readonly text: string }>();
  const [why, setWhy] = useState('');
  const area = useRef<HTMLTextAreaElement>(null);
  const take = async () => {
    if (!typed) return;
    const not = await session.replace(typed.from, typed.text);
    if (not) {
      setWhy(say('case.text-not', { why: not.map(({ code }) => code).join(', ') }));
      return;
    }
    setTyped(undefined);
    setWhy('');
    tell(say('case.text-taken'));
  };
  useEffect(() => {
    if (!typed) return undefined;
    const ask = (event: BeforeUnloadEvent) => event.preventDefault();
    addEventListener('beforeunload', ask);
    return () => removeEventListener('beforeunload', ask);
  }, [typed]);
  return (
    <section class="text" aria-labelledby="text">
      <h2 id="text">{say('case.view.text')}</h2>
      <label for="record">{say('case.text-hint')}</label>
      <textarea
        ref={area}
        id="record"
        rows={24}
        wrap="off"
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        readOnly={!open}
        value={typed?.text ?? seen.text}
        onInput={event => setTyped({ from: typed?.from ?? seen.text, text: event.currentTarget.value })}
      />
      <p role="status">{why}</p>
      {typed && typed.from !== seen.text && <p class="hint">{say('case.text-changed')}</p>}
      <div class="offers">
        <button type="button" class="main" disabled={!typed} onClick={() => void take()}>
          {say('case.text-take')}
        </button>
        <button
          type="button"
          disabled={!typed}
          onClick={() => {
            setTyped(undefined);
            setWhy('');
          }}
        >
          {say('case.text-leave')}
        </button>
      </div>
    </section>
  );
}
