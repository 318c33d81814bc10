import type { Checked, Destinations, Finding, Prepared } from './answers.js';
import { type Answer, ask } from './ask.js';
import { bodyOf, type Companions, companions, watchCompanions } from './companions.js';
import { byId } from './element.js';
import { showFindings } from './findings.js';
import { showPerson, watchPerson } from './person.js';
import { recordText, watchRecord } from './record-text.js';
import { showReports, startReports } from './reports.js';
import { showResults } from './results.js';
import { offer, startTakeIn } from './take-in.js';
import { say } from './words.js';

/* Nothing is kept by the page but what stands on it: no storage, nothing but the language in the address. */

const tokenRow = byId('token-row', HTMLElement);
const tokenField = byId('token', HTMLInputElement);
const said = byId('said', HTMLElement);
const stale = byId('stale', HTMLElement);
const results = byId('results', HTMLElement);
const jump = byId('jump', HTMLElement);
const leaving = byId('leaving', HTMLElement);

/** The text that the results are about, and what went with it. */
let checkedText: string | undefined;
let checkedWith: Companions | undefined;
/** Counts presses of Check: only the answers to the last one are shown. */
let press = 0;

const token = () => tokenField.value.trim();

async function check(): Promise<void> {
  const mine = ++press;
  const text = recordText();
  if (text.trim() === '') {
    said.textContent = say('screen.nothing');
    return;
  }
  said.textContent = say('screen.checking');
  offer(undefined, say('screen.take.checking'));
  const key = token();
  const along = companions();
  const body = bodyOf(text, along);
  const checked = await ask<Checked>('cases/check', key, body);
  if (mine !== press) return;
  if (!checked.ok) {
    refused(checked, text, along);
    return;
  }
  // What is not whole cannot be prepared: what could be checked of it stands in the first answer.
  const prepared = checked.body.whole ? await ask<Prepared>('cases/prepare?draft=yes', key, body) : undefined;
  const named = await ask<Destinations>('destinations', key);
  if (mine !== press) return;
  const ready = prepared?.ok ? prepared.body : undefined;
  const findings = ready?.findings ?? checked.body.findings;
  const words = show(findings, text, along);
  results.hidden = false;
  jump.hidden = false;
  showResults(checked.body, ready?.timeline);
  showReports(ready);
  const destinations = named.ok ? named.body.destinations.map(({ name }) => name) : [];
  offer({ body, findings, prepared: ready, destinations });
  const trouble = [prepared, named].find(answer => answer?.ok === false);
  said.textContent =
    trouble?.ok === false
      ? say('screen.in-part', { why: trouble.text })
      : say('screen.checked', { counts: words });
  compare();
}

/** No case at all, or the service would not. */
function refused(answer: Extract<Answer<unknown>, { ok: false }>, text: string, along: Companions): void {
  said.textContent = say('screen.not-checked', { why: answer.text });
  offer(undefined, say('screen.take.unchecked'));
  results.hidden = true;
  jump.hidden = true;
  if (answer.findings.length > 0) show(answer.findings, text, along);
  tokenField.setAttribute('aria-invalid', String(answer.status === 401));
  if (answer.status === 401) {
    tokenField.focus();
    void showWays().then(() => tokenField.focus());
  }
}

function show(findings: readonly Finding[], text: string, along: Companions): string {
  checkedText = text;
  checkedWith = along;
  tokenField.removeAttribute('aria-invalid');
  compare();
  return showFindings(findings);
}

/** Shows who is signed in, or how one comes in: a field for a token is there where one may be needed. */
async function showWays(): Promise<void> {
  const me = await showPerson();
  if (me) tokenRow.hidden = me.signedIn || !me.tokens;
  else {
    // Asked without a token: whether one is needed.
    const first = await ask<Destinations>('destinations', '');
    tokenRow.hidden = first.ok;
    if (!first.ok && first.status !== 401) said.textContent = first.text;
  }
}

/** Says so when the record, or what goes with it, is no longer what was checked; only that may leave. */
function compare(): void {
  const other = checkedText !== undefined && (checkedText !== recordText() || checkedWith !== companions());
  stale.hidden = !other;
  if (other) offer(undefined, say('screen.take.changed'));
}

/** Another language is another page, and what stands on this one is kept nowhere: that is said before it goes. */
function watchLanguages(): void {
  let warned: Element | undefined;
  for (const link of document.querySelectorAll('#languages a'))
    link.addEventListener('click', event => {
      if (recordText() === '' || warned === link) return;
      event.preventDefault();
      warned = link;
      leaving.textContent = say('screen.leave', { language: link.textContent ?? '' });
    });
}

byId('check', HTMLButtonElement).addEventListener('click', () => void check());
watchRecord(compare, text => {
  said.textContent = text;
});
watchCompanions(compare);
watchLanguages();
startReports();
startTakeIn({ token, found: findings => void showFindings(findings) });

// Whoever signs out leaves nothing of a patient behind for whoever comes next.
watchPerson(() => document.querySelector('main')?.remove());
await showWays();
