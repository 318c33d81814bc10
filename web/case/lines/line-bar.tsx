import { useState } from 'preact/hooks';
import { say } from '../../words.js';
import { dayEdits, nowIn, useDesk } from '../desk/desk.js';
import type { Proposed } from '../engine/lines.js';

/** A typed or dictated line: what it would write is shown, and counts once it is touched. */
export function LineBar() {
  const desk = useDesk();
  const { seen, service, act, open, tell } = desk;
  const [typed, setTyped] = useState('');
  const [proposed, setProposed] = useState<readonly Proposed[]>([]);
  const read = async () => {
    const line = typed.trim();
    if (line === '') return;
    const time = { now: new Date(service.clock.now()).toISOString(), at: nowIn(desk) };
    try {
      setProposed(await service.engine.line(seen.text, line, time));
      setTyped('');
    } catch {
      tell(say('case.not-made'));
    }
  };
  const take = async (one: Proposed) => {
    if (await act([...dayEdits(desk), ...one.edits])) setProposed(proposed.filter(other => other !== one));
  };
  if (!open) return null;
  return (
    <section class="lines" aria-label={say('case.line')}>
      {proposed.map((one, index) => (
        <div key={index} class={`proposed ${one.certainty === 'understood' ? '' : 'uncertain'}`}>
          <p role="status">
            <q>{one.line}</q> <strong>{say(`case.line.${one.certainty}`)}</strong>
          </p>
          <ul>
            {one.said.map((said, place) => (
              <li key={place}>{said}</li>
            ))}
          </ul>
          {one.why.map(why => (
            <p key={why} class="hint">
              {why}
            </p>
          ))}
          {one.unknown.length > 0 && (
            <p class="hint">{say('case.line.words', { words: one.unknown.join(', ') })}</p>
          )}
          <div class="offers">
            {one.edits.length > 0 && (
              <button type="button" class="main" onClick={() => void take(one)}>
                {say('case.line.take')}
              </button>
            )}
            <button type="button" onClick={() => setProposed(proposed.filter(other => other !== one))}>
              {say('case.line.leave')}
            </button>
          </div>
        </div>
      ))}
      <form
        onSubmit={event => {
          event.preventDefault();
          void read();
        }}
      >
        <label for="line">{say('case.line')}</label>
        <input
          id="line"
          value={typed}
          autocomplete="off"
          enterkeyhint="send"
          onInput={event => setTyped(event.currentTarget.value)}
        />
        <button type="submit" disabled={typed.trim() === ''}>
          {say('case.line.read')}
        </button>
      </form>
    </section>
  );
}
