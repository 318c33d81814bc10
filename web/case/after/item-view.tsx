import { useEffect, useState } from 'preact/hooks';
import type { Item } from '../../answers.js';
import { say } from '../../words.js';
import { ask } from '../ask/ask.js';
import { dayAndTime } from '../desk/clock.js';
import { useDesk } from '../desk/desk.js';
import { FindingLines } from '../finish/finding-lines.js';
import type { Who } from '../person/who.js';

const EVERY = 3_000;

/** One item of the outbox, asked for until nothing more can become of it. */
export function ItemView({ id, who }: { readonly id: string; readonly who: Who }) {
  const [item, setItem] = useState<Item>();
  const [said, setSaid] = useState('');
  const [turn, setTurn] = useState(0);
  const [why, setWhy] = useState('');
  const { service } = useDesk();
  const path = `v1/outbox/${encodeURIComponent(id)}`;
  useEffect(() => {
    let over = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = async () => {
      if (!document.hidden) {
        const answer = await ask<Item>(path);
        if (over) return;
        setSaid(answer.ok ? '' : say('screen.outbox.again', { why: answer.text }));
        if (answer.ok) setItem(answer.body);
        if (answer.ok && (answer.body.state === 'delivered' || answer.body.state === 'discarded')) return;
      }
      timer = setTimeout(look, EVERY);
    };
    void look();
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }, [path, turn]);
  const decide = async (what: 'retry' | 'park') => {
    const reason = why.trim();
    if (what === 'park' && reason === '') return setSaid(say('case.after.say-why'));
    const { by } = who;
    const json = { ...(by !== undefined && { by }), ...(what === 'park' && { why: reason }) };
    const answer = await ask(`${path}/${what}`, { json });
    setSaid(answer.ok ? say(`case.after.${what}-done`) : answer.text);
    if (answer.ok) setWhy('');
    setTurn(turn + 1);
  };
  if (!item) return <li class="thing">{said || say('case.opening')}</li>;
  const { destination, state, attempts, outcomeUnknown, receipt, parked } = item;
  const reason = item.said?.reason ?? item.reason;
  const sent = receipt && dayAndTime(Date.parse(receipt.sentAt), service.timeZone);
  const facts = [
    attempts > 0 ? say('screen.outbox.attempts', { n: attempts }) : '',
    outcomeUnknown && state !== 'parked' ? say('screen.outbox.unknown') : '',
    sent ? say('screen.outbox.receipt', { time: `${sent.day} ${sent.time}` }) : '',
    // What was accepted needs no reason.
    reason === undefined || state === 'delivered' ? '' : say('screen.outbox.reason', { reason }),
  ].filter(fact => fact !== '');
  const may = who.may('outbox') && (state === 'parked' || state === 'waiting');
  return (
    <li class="thing" data-item={state}>
      <p aria-live="polite">
        <strong>{say('screen.outbox.row', { destination, state: say(`case.item.${state}`) })}</strong>
      </p>
      {facts.length > 0 && <p>{facts.join(' ')}</p>}
      {parked && <FindingLines findings={parked.findings} />}
      {may && (
        <div class="offers">
          <button type="button" onClick={() => void decide('retry')}>
            {say('case.after.retry')}
          </button>
        </div>
      )}
      {may && state === 'waiting' && (
        <div class="field">
          <label for={`park-${id}`}>{say('case.after.park-why')}</label>
          <div class="beside-field">
            <input
              id={`park-${id}`}
              value={why}
              autocomplete="off"
              onInput={event => setWhy(event.currentTarget.value)}
            />
            <button type="button" onClick={() => void decide('park')}>
              {say('case.after.park')}
            </button>
          </div>
        </div>
      )}
      <p role="status">{said}</p>
    </li>
  );
}
