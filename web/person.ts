import type { Me } from './answers.js';
import { ask, tell } from './ask.js';
import { byId } from './element.js';
import { say } from './words.js';

/* Who is signed in, and the ways in and out. */

const row = byId('person-row', HTMLElement);
const person = byId('person', HTMLElement);
const signIn = byId('sign-in', HTMLAnchorElement);
const signOut = byId('sign-out', HTMLButtonElement);
const elsewhere = byId('sign-out-elsewhere', HTMLAnchorElement);

/** Shows who is signed in. @returns what the service says; undefined where nobody can sign in at it. */
export async function showPerson(): Promise<Me | undefined> {
  const answer = await ask<Me>('me', '');
  if (!answer.ok) return undefined;
  const me = answer.body;
  if (!me.signedIn && me.signIn === 'none') return undefined;
  row.hidden = false;
  signIn.hidden = me.signedIn;
  signOut.hidden = !me.signedIn;
  person.textContent = me.signedIn
    ? say(me.verified ? 'screen.sign-in.person' : 'screen.sign-in.person-typed', { name: me.name })
    : '';
  return me;
}

/** @param out called once nobody is signed in any longer: what stands on the page is not for whoever comes next */
export function watchPerson(out: () => void): void {
  signOut.addEventListener('click', async () => {
    const answer = await tell<{ readonly providerSignOut?: string }>('sign-out', {});
    if (!answer.ok) {
      person.textContent = say('screen.sign-in.out-not', { why: answer.text });
      return;
    }
    const { providerSignOut } = answer.body;
    signOut.hidden = true;
    signIn.hidden = false;
    person.textContent = say(
      providerSignOut === undefined ? 'screen.sign-in.out' : 'screen.sign-in.out-provider',
    );
    if (providerSignOut !== undefined && /^https?:/.test(providerSignOut)) {
      elsewhere.href = providerSignOut;
      elsewhere.hidden = false;
    }
    out();
  });
}
