import type { Finding, Prepared, Taken } from './answers.js';
import { ask } from './ask.js';
import { byId, counted, element } from './element.js';
import { findingList, isError, isWarning } from './findings.js';
import { addItems } from './outbox-items.js';

const why = byId('take-why', HTMLElement);
const take = byId('take', HTMLButtonElement);
const step = byId('confirm', HTMLElement);
const heading = byId('confirm-heading', HTMLElement);
const where = byId('confirm-where', HTMLElement);
const warnings = byId('confirm-warnings', HTMLElement);
const said = byId('take-said', HTMLElement);

/** A case that may be taken in: exactly what was checked. */
export interface Candidate {
  readonly body: string | FormData;
  readonly findings: readonly Finding[];
  /** Undefined when the record is not whole. */
  readonly prepared: Prepared | undefined;
  /** Names of the site's destinations. */
  readonly destinations: readonly string[];
}

interface Ports {
  token(): string;
  /** Shows what was found against the case, or goes with it. */
  found(findings: readonly Finding[]): void;
}

let candidate: Candidate | undefined;
/** One press at a time: a second one while the first is on its way does nothing. */
let underWay = false;

/** Makes both steps work. */
export function startTakeIn(ports: Ports): void {
  take.addEventListener('click', () => {
    if (!candidate) return;
    askAgain(candidate);
    step.hidden = false;
    heading.focus();
  });
  byId('take-not', HTMLButtonElement).addEventListener('click', () => {
    step.hidden = true;
    take.focus();
  });
  byId('take-now', HTMLButtonElement).addEventListener('click', () => void takeIn(ports));
}

/** Offers a case, or says why it cannot be taken in; undefined while nothing that stands here is checked. */
export function offer(offered: Candidate | undefined, reason = ''): void {
  const against = offered ? obstacle(offered) : reason;
  candidate = against === undefined ? offered : undefined;
  take.disabled = candidate === undefined;
  step.hidden = true;
  why.textContent =
    against ??
    'No error stands. The next step names the destinations and the warnings before anything leaves.';
  if (offered) said.textContent = '';
}

function obstacle({ findings, prepared, destinations }: Candidate): string | undefined {
  const errors = findings.filter(isError).length;
  if (errors > 0) return `Not possible: ${counted(errors, 'error')} stand${errors === 1 ? 's' : ''}.`;
  if (!prepared?.sendable) return 'Not possible: the case could not be made ready.';
  if (destinations.length === 0) return 'Not possible: the site configuration has no destination.';
  return undefined;
}

function askAgain({ findings, prepared, destinations }: Candidate): void {
  const routed = prepared?.goesTo ?? [];
  const [only] = destinations;
  if (destinations.length === 1 && only !== undefined) {
    where.replaceChildren(element('p', {}, 'It goes to ', element('strong', {}, only), '.'));
  } else {
    const group = element('fieldset', {}, element('legend', {}, 'Where it goes'));
    if (routed.length > 0) group.append(option('', `By the routes of the site: ${routed.join(', ')}`, true));
    for (const name of destinations)
      group.append(option(name, routed.length > 0 ? `Only to ${name}` : name, false));
    where.replaceChildren(group);
  }
  const standing = findings.filter(isWarning);
  warnings.replaceChildren(
    ...(standing.length === 0
      ? [element('p', {}, 'No warning goes with it.')]
      : [
          element(
            'p',
            {},
            `${counted(standing.length, 'warning')} ${standing.length === 1 ? 'goes' : 'go'} with it:`,
          ),
          findingList(standing),
        ]),
  );
}

function option(value: string, label: string, checked: boolean): HTMLElement {
  const button = element('input', { type: 'radio', name: 'destination', value, id: `to-${value}` });
  button.checked = checked;
  return element('div', {}, button, element('label', { for: button.id }, label));
}

/** The chosen destination, empty for the site's own way; undefined when none is chosen. */
function destination(): string | undefined {
  const options = [...where.querySelectorAll('input')];
  return options.length === 0 ? '' : options.find(one => one.checked)?.value;
}

async function takeIn({ token, found }: Ports): Promise<void> {
  if (!candidate || underWay) return;
  const to = destination();
  if (to === undefined) {
    said.textContent = 'Choose where it goes.';
    where.querySelector('input')?.focus();
    return;
  }
  underWay = true;
  const mine = candidate;
  said.textContent = 'Taking it in…';
  const path = to === '' ? 'cases' : `cases?to=${encodeURIComponent(to)}`;
  const answer = await ask<Taken>(path, token(), mine.body);
  underWay = false;
  if (answer.ok) {
    if (candidate === mine) {
      offer(undefined, 'This case was taken in.');
      found(answer.body.findings);
    }
    said.textContent = 'Taken in. How it stands is asked again every few seconds.';
    addItems(answer.body.items, token);
  } else if (answer.status === 0) {
    said.textContent = `${answer.text} It is not known whether the case was taken in. Press again: the same case is not taken in twice.`;
  } else {
    said.textContent = `Not taken in. ${answer.text}`;
    if (answer.findings.length > 0 && candidate === mine) {
      found(answer.findings);
      offer({ ...mine, findings: answer.findings });
      said.textContent = `Not taken in. ${answer.text}`;
    }
  }
}
