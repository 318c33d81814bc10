import { say } from '../../words.js';
import { AfterView } from '../after/after-view.js';
import { CloseView } from '../close/close-view.js';
import { useDesk } from '../desk/desk.js';
import { useWho } from '../person/who.js';
import { ReadView } from '../read/read-view.js';
import { LeavingView } from '../sign/leaving-view.js';
import { SignView } from '../sign/sign-view.js';
import { Action } from './action.js';
import { useEnd } from './use-end.js';

/** The end of a case: everything is entered, it is read, signed, and leaves. */
export function FinishView({ id }: { readonly id: string }) {
  const { view } = useDesk();
  const who = useWho();
  const end = useEnd(id, view.version);
  const { state } = view;
  if (!who) return <p role="status">{say('case.opening')}</p>;
  return (
    <div class="finish">
      <h2>{say(`case.state.${state}`)}</h2>
      <p class="hint">{say('case.findings-hint')}</p>
      {state === 'open' && end?.why !== undefined && (
        <p role="alert" class="came-back">
          {say('case.finish.came-back', { why: end.why })}
        </p>
      )}
      {state === 'discarded' && <p>{say('case.home.discarded', { why: end?.why ?? '' })}</p>}
      {state === 'open' && <CloseView id={id} who={who} />}
      {state === 'closed' && <Action id={id} what="reopen" who={who} say={say('case.finish.reopen')} plain />}
      {(state === 'signed' || state === 'taking-in') && <LeavingView id={id} who={who} end={end} />}
      {state === 'taken-in' && end && <AfterView id={id} who={who} items={end.items ?? []} />}
      {state !== 'discarded' && <ReadView />}
      {/* Last: whoever signs has read the report. */}
      {state === 'closed' && <SignView id={id} who={who} />}
    </div>
  );
}
