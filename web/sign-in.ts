import { tell } from './ask.js';
import { byId } from './element.js';
import { say } from './words.js';

/* Signing in by the link that the service printed. Its code stands behind the #, which is sent to nobody. */

const nameRow = byId('name-row', HTMLElement);
const nameField = byId('name', HTMLInputElement);
const said = byId('said', HTMLElement);
const open = byId('open', HTMLElement);
const renew = byId('renew', HTMLButtonElement);

let code = '';

/** Takes the code out of the address, of which the browser then keeps none. */
function begin(): void {
  if (location.hash.length < 2) return;
  code = location.hash.slice(1);
  location.replace('#');
  open.hidden = true;
  renew.hidden = true;
  said.textContent = '';
  nameRow.hidden = false;
  nameField.focus();
}

/** Without a link that works there is nothing to type a name for. */
function withoutLink(why: string): void {
  said.textContent = why;
  nameRow.hidden = true;
  open.hidden = false;
  renew.hidden = false;
}

async function signIn(): Promise<void> {
  const name = nameField.value.trim();
  if (name === '') {
    said.textContent = say('screen.sign-in.name-missing');
    nameField.focus();
    return;
  }
  const answer = await tell<{ readonly to: string }>('once', { code, name });
  if (answer.ok) location.replace(answer.body.to);
  else if (answer.status === 401) withoutLink(say('screen.sign-in.link-used'));
  else said.textContent = answer.text;
}

byId('in', HTMLButtonElement).addEventListener('click', () => void signIn());
nameField.addEventListener('keydown', event => {
  if (event.key === 'Enter') void signIn();
});
renew.addEventListener('click', async () => {
  const answer = await tell('link', {});
  said.textContent = answer.ok ? say('screen.sign-in.link-printed') : answer.text;
});
// Another link may be opened where the page stands already.
window.addEventListener('hashchange', begin);
if (location.hash.length < 2) withoutLink(say('screen.sign-in.link-none'));
begin();
