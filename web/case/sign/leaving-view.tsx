import { useEffect, useState } from 'preact/hooks';
import { say } from '../../words.js';
import { dayAndTime } from '../desk/clock.js';
import { useDesk } from '../desk/desk.js';
import { Action } from '../finish/action.js';
import type { End } from '../finish/use-end.js';
import type { Who } from '../person/who.js';

/** How long the signature can still be taken back; after that the case leaves by itself. */
export function LeavingView({
  id,
  who,
  end,
}: {
  readonly id: string;
  readonly who: Who;
  readonly end: End | undefined;
}) {
  const { service, session, view } = useDesk();
  const [now, setNow] = useState(service.clock.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(service.clock.now()), 1_000);
    // What becomes of it is told by the service; where that is cut off, it is asked.
    const look = setInterval(() => session.look(), 5_000);
    return () => {
      clearInterval(timer);
      clearInterval(look);
    };
  }, [service, session]);
  const { signature } = end ?? {};
  const left = signature ? Date.parse(signature.leavesAt) - now : 0;
  if (view.state !== 'signed' || !signature || left <= 0)
    return <p role="status">{say('case.sign.goes-now')}</p>;
  const seconds = Math.floor(left / 1_000);
  const time = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
  return (
    <section class="leaving" aria-labelledby="leaving">
      <h3 id="leaving">{say('case.sign.signed-by', { by: signature.by })}</h3>
      <p>
        {say('case.home.leaves', { time: dayAndTime(Date.parse(signature.leavesAt), service.timeZone).time })}
      </p>
      <p>
        {say('case.sign.left')}{' '}
        <span class="countdown" role="timer">
          {time}
        </span>
      </p>
      <Action
        id={id}
        what="take-back"
        who={who}
        say={say('case.sign.take-back')}
        not={who.may('sign') ? undefined : say('case.sign.no-right')}
      />
    </section>
  );
}
