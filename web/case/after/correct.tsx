import { useState } from 'preact/hooks';
import { say } from '../../words.js';
import { ask } from '../ask/ask.js';
import { dayAndTime } from '../desk/clock.js';
import { useDesk, zoneOf } from '../desk/desk.js';
import { isGroup, listAt, nameOf, textAt } from '../desk/tree.js';
import type { CaseRow } from '../home/lists.js';
import type { Who } from '../person/who.js';
import { personIn } from '../sign/person-in.js';
import { type Kind, kinds, nextVersion } from './correction.js';

/** Begins the next version of a report that was sent: nothing that was sent is ever changed in place. */
export function Correct({ id, who }: { readonly id: string; readonly who: Who }) {
  const { seen, service } = useDesk();
  const { tree } = seen;
  const team = listAt(tree, 'team').flatMap(one =>
    isGroup(one) && typeof one['key'] === 'string' ? [{ key: one['key'], name: nameOf(one['name']) }] : [],
  );
  const [kind, setKind] = useState<Kind>();
  const [by, setBy] = useState(() => personIn(team, who.name));
  const [why, setWhy] = useState('');
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const [other, setOther] = useState<string>();
  if (textAt(tree, 'report.status') === 'withdrawn') return <p>{say('case.after.was-withdrawn')}</p>;
  if (!who.may('enter')) return null;
  const begin = async () => {
    if (busy || kind === undefined || why.trim() === '') return;
    setBusy(true);
    const number = textAt(tree, 'case.id');
    const under = other === undefined && number !== undefined ? await begunAlready(number, id) : undefined;
    if (under !== undefined) {
      // Two next versions of one report would contradict each other: whoever wants one all the same says so.
      setOther(under);
      setBusy(false);
      return;
    }
    const { day, time } = dayAndTime(service.clock.now(), zoneOf(tree, service));
    const edits = nextVersion(tree, { kind, by, why: why.trim(), at: `${day}T${time}` });
    const made = await service.engine.edit({ base: seen.text, now: seen.text }, edits);
    if ('findings' in made) {
      setSaid(say('case.not-made'));
      setBusy(false);
      return;
    }
    const answer = await ask<{ readonly id: string }>('v1/drafts', { record: made.text, by: who.by });
    setBusy(false);
    if (answer.ok) location.hash = answer.body.id;
    else setSaid(answer.text);
  };
  return (
    <section class="correct" aria-labelledby="correct">
      <h3 id="correct">{say('case.after.correct')}</h3>
      <div class="choices">
        {kinds.map(one => (
          <button
            key={one}
            type="button"
            data-kind={one}
            class={one === 'withdrawn' ? 'danger' : ''}
            aria-pressed={one === kind}
            onClick={() => setKind(one === kind ? undefined : one)}
          >
            {say(`case.after.${one}`)}
            <small>{say(`case.after.${one}-hint`)}</small>
          </button>
        ))}
      </div>
      {kind !== undefined && (
        <div class="fields">
          <fieldset>
            <legend>{say('case.after.by')}</legend>
            <div class="choices">
              {team.map(one => (
                <button
                  key={one.key}
                  type="button"
                  aria-pressed={one.key === by}
                  onClick={() => setBy(one.key === by ? undefined : one.key)}
                >
                  {one.name}
                </button>
              ))}
            </div>
          </fieldset>
          <div class="field">
            <label for="correct-why">{say('case.after.why')}</label>
            <textarea
              id="correct-why"
              rows={2}
              value={why}
              onInput={event => setWhy(event.currentTarget.value)}
            />
          </div>
          {other !== undefined && (
            <p role="alert">
              {say('case.after.begun-already')}{' '}
              <a class="button" href={`case${location.search}#${other}`}>
                {say('case.after.open-it')}
              </a>
            </p>
          )}
          <p role="status">{said}</p>
          <button
            type="button"
            class="main"
            data-action="correct"
            disabled={busy || why.trim() === ''}
            onClick={() => void begin()}
          >
            {say(other === undefined ? 'case.after.begin' : 'case.after.begin-all-the-same')}
          </button>
        </div>
      )}
    </section>
  );
}

/** A draft of the same case that is not done yet. */
async function begunAlready(number: string, own: string): Promise<string | undefined> {
  const found = await ask<{ readonly drafts: readonly CaseRow[] }>('v1/drafts/search', {
    json: { find: number, since: '2000-01-01' },
  });
  if (!found.ok) return undefined;
  return found.body.drafts.find(
    row => row.case === number && row.id !== own && row.state !== 'taken-in' && row.state !== 'discarded',
  )?.id;
}
