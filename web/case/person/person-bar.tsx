import { useState } from 'preact/hooks';
import { language, say } from '../../words.js';
import { ask } from '../ask/ask.js';
import { forgetName, openService } from '../desk/service.js';
import type { Who } from './who.js';

/** Where signing in leads back to: this page, in its language, with the case that is open. */
export const signInAddress = (fresh = false, to = `case${location.search}${location.hash}`): string =>
  `sign-in?${fresh ? 'fresh=yes&' : ''}language=${language}&to=${encodeURIComponent(to)}`;

/** Who is at the page, and the ways in and out. @param left called once nobody is there any longer */
export function PersonBar({
  who,
  left,
}: {
  readonly who: Who;
  readonly left: (providerSignOut?: string) => void;
}) {
  const [asking, setAsking] = useState(false);
  const [said, setSaid] = useState('');
  const leave = async () => {
    const not = await signOut(who, left);
    if (not !== undefined) setSaid(not);
  };
  const begin = async () => {
    if (await hasUnsaved()) setAsking(true);
    else await leave();
  };
  if (who.name === undefined)
    return who.canSignIn ? (
      <p class="person">
        <a class="button" href={signInAddress()}>
          {say('case.sign-in')}
        </a>
      </p>
    ) : null;
  return (
    <div class="person">
      <p>
        {who.verified
          ? say('screen.sign-in.person', { name: who.name })
          : say('case.person.typed', { name: who.name })}
      </p>
      {asking ? (
        <div class="asks" role="alert">
          <p>{say('case.person.unsaved')}</p>
          <button type="button" class="danger" onClick={() => void leave()}>
            {say('case.person.out-anyway')}
          </button>
          <button type="button" onClick={() => setAsking(false)}>
            {say('case.person.stay')}
          </button>
        </div>
      ) : (
        <button type="button" onClick={() => void begin()}>
          {say(who.signedIn ? 'case.person.out' : 'case.person.other')}
        </button>
      )}
      <p role="status">{said}</p>
    </div>
  );
}

async function hasUnsaved(): Promise<boolean> {
  const service = await openService();
  // A browser that keeps nothing has nothing to lose.
  return 'kind' in service ? false : service.kept.holds().catch(() => false);
}

/** Unsaved work goes first: whoever comes next must find none. @returns why nobody was signed out */
async function signOut(who: Who, left: (providerSignOut?: string) => void): Promise<string | undefined> {
  const service = await openService();
  if (!('kind' in service)) await service.kept.wipe().catch(() => undefined);
  forgetName();
  if (!who.signedIn) {
    left();
    return undefined;
  }
  const answer = await ask<{ readonly providerSignOut?: string }>('sign-out', { json: {} });
  if (!answer.ok) return say('screen.sign-in.out-not', { why: answer.text });
  const { providerSignOut } = answer.body;
  left(providerSignOut !== undefined && /^https?:/.test(providerSignOut) ? providerSignOut : undefined);
  return undefined;
}
