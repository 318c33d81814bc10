import type { Checked, Destinations, Finding, Prepared } from './answers.js';
import { type Answer, ask } from './ask.js';
import { bodyOf, type Companions, companions, watchCompanions } from './companions.js';
import { byId } from './element.js';
import { showFindings } from './findings.js';
import { recordText, watchRecord } from './record-text.js';
import { showReports, startReports } from './reports.js';
import { showResults } from './results.js';
import { offer, startTakeIn } from './take-in.js';

/* Nothing is kept but what stands on the page: no storage, no cookie, nothing in the address. */

const tokenRow = byId('token-row', HTMLElement);
const tokenField = byId('token', HTMLInputElement);
const said = byId('said', HTMLElement);
const stale = byId('stale', HTMLElement);
const results = byId('results', HTMLElement);
const jump = byId('jump', HTMLElement);

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
    said.textContent = 'There is nothing to check: open or paste a case record.';
    return;
  }
  said.textContent = 'Checking…';
  offer(undefined, 'The case is being checked.');
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
  said.textContent = trouble?.ok === false ? `Checked in part. ${trouble.text}` : `Checked: ${words}.`;
  compare();
}

/** No case at all, or the service would not. */
function refused(answer: Extract<Answer<unknown>, { ok: false }>, text: string, along: Companions): void {
  said.textContent = `Not checked. ${answer.text}`;
  offer(undefined, 'Not possible: the record was not checked.');
  results.hidden = true;
  jump.hidden = true;
  if (answer.findings.length > 0) show(answer.findings, text, along);
  tokenField.setAttribute('aria-invalid', String(answer.status === 401));
  if (answer.status === 401) {
    tokenRow.hidden = false;
    tokenField.focus();
  }
}

function show(findings: readonly Finding[], text: string, along: Companions): string {
  checkedText = text;
  checkedWith = along;
  tokenField.removeAttribute('aria-invalid');
  compare();
  return showFindings(findings);
}

/** Says so when the record, or what goes with it, is no longer what was checked; only that may leave. */
function compare(): void {
  const other = checkedText !== undefined && (checkedText !== recordText() || checkedWith !== companions());
  stale.hidden = !other;
  if (other) offer(undefined, 'Not possible: the record was changed since it was checked.');
}

byId('check', HTMLButtonElement).addEventListener('click', () => void check());
watchRecord(compare, text => {
  said.textContent = text;
});
watchCompanions(compare);
startReports();
startTakeIn({ token, found: findings => void showFindings(findings) });

// Asked without a token: whether one is needed.
const first = await ask<Destinations>('destinations', '');
tokenRow.hidden = first.ok;
if (!first.ok && first.status !== 401) said.textContent = first.text;
