import { useEffect, useState } from 'preact/hooks';
import { say } from '../words.js';
import { dayAndTime } from './desk/clock.js';
import { useDesk, zoneOf } from './desk/desk.js';
import { at, nameOf, textAt } from './desk/tree.js';
import type { NotMade, Saving } from './session/types.js';

/** Whose case it is, what time it is in the room, whether everything is saved, and the way back. */
export function Head({ people, told }: { readonly people: readonly string[]; readonly told: string }) {
  const { seen, session, view, open, tell } = useDesk();
  const { tree } = seen;
  const step = async (made: Promise<NotMade>) => {
    // Others built on what was to be taken back.
    if (await made) tell(say('case.not-made'));
  };
  const about = [textAt(tree, 'case.id'), textAt(tree, 'case.kind')].filter(text => text !== undefined);
  const patient = [nameOf(at(tree, 'patient.name')), textAt(tree, 'patient.birthDate') ?? ''].filter(
    text => text !== '',
  );
  return (
    <header class="head">
      <div class="whose">
        <h1>{about.length > 0 ? about.join(' · ') : say('case.title')}</h1>
        <p class="patient">{patient.length > 0 ? patient.join(', ') : say('case.no-patient')}</p>
      </div>
      <p class="clock">
        <span class="unseen">{say('case.room-clock')} </span>
        <Clock />
      </p>
      <div class="back">
        <button type="button" disabled={!view.canUndo || !open} onClick={() => void step(session.undo())}>
          {say('case.undo')}
        </button>
        <button type="button" disabled={!view.canRedo || !open} onClick={() => void step(session.redo())}>
          {say('case.redo')}
        </button>
      </div>
      <div class={`saving saving-${view.saving.kind}`}>
        <p role="status">{open ? savingText(view.saving) : say('case.not-open')}</p>
        <SavingHelp saving={view.saving} />
        {people.length > 1 && (
          <p class="people">{say('case.also-here', { n: people.length, names: people.join(', ') })}</p>
        )}
      </div>
      <p class="told" role="status">
        {told}
      </p>
    </header>
  );
}

function Clock() {
  const { service, seen } = useDesk();
  const [now, setNow] = useState(service.clock.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(service.clock.now()), 1_000);
    return () => clearInterval(timer);
  }, [service]);
  return <time>{dayAndTime(now, zoneOf(seen.tree, service)).time}</time>;
}

/** How what stands here stands to the service, in plain words. */
export const savingText = (saving: Saving): string =>
  saving.kind === 'refused'
    ? say('case.saving.refused', { why: saving.why })
    : say(`case.saving.${saving.kind}`);

function SavingHelp({ saving }: { readonly saving: Saving }) {
  const { session } = useDesk();
  const retry = (
    <button type="button" onClick={() => session.retry()}>
      {say('case.try-again')}
    </button>
  );
  if (saving.kind === 'nobody')
    return (
      <>
        <SignIn />
        {retry}
      </>
    );
  return saving.kind === 'away' || saving.kind === 'refused' ? retry : null;
}

/** Leads to the sign-in in a tab of its own, so that nothing of this one is lost. */
export function SignIn() {
  const to = `case${location.search}${location.hash}`;
  return (
    <a class="button" target="_blank" rel="noopener" href={`sign-in?to=${encodeURIComponent(to)}`}>
      {say('case.sign-in')}
    </a>
  );
}
