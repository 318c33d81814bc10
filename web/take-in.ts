import type { Finding, Prepared, Taken } from './answers.js';
import { ask } from './ask.js';
import { byId, element } from './element.js';
import { findingList, isError, isWarning } from './findings.js';
import { addItems } from './outbox-items.js';
import { counted, say, sayWith } from './words.js';

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
  why.textContent = against ?? say('screen.take.ready');
  if (offered) said.textContent = '';
}

function obstacle({ findings, prepared, destinations }: Candidate): string | undefined {
  const errors = findings.filter(isError).length;
  if (errors > 0) return counted('screen.take.errors', errors);
  if (!prepared?.sendable) return say('screen.take.unready');
  if (destinations.length === 0) return say('screen.take.nowhere');
  return undefined;
}

function askAgain({ findings, prepared, destinations }: Candidate): void {
  const routed = prepared?.goesTo ?? [];
  const [only] = destinations;
  if (destinations.length === 1 && only !== undefined) {
    where.replaceChildren(
      element('p', {}, ...sayWith('screen.take.goes-to', { name: element('strong', {}, only) })),
    );
  } else {
    const group = element('fieldset', {}, element('legend', {}, say('screen.take.where')));
    if (routed.length > 0)
      group.append(option('', say('screen.take.routes', { names: routed.join(', ') }), true));
    for (const name of destinations)
      group.append(option(name, routed.length > 0 ? say('screen.take.only', { name }) : name, false));
    where.replaceChildren(group);
  }
  const standing = findings.filter(isWarning);
  warnings.replaceChildren(
    ...(standing.length === 0
      ? [element('p', {}, say('screen.take.no-warning'))]
      : [element('p', {}, counted('screen.take.warnings', standing.length)), findingList(standing)]),
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
    said.textContent = say('screen.take.choose');
    where.querySelector('input')?.focus();
    return;
  }
  underWay = true;
  const mine = candidate;
  said.textContent = say('screen.take.under-way');
  const path = to === '' ? 'cases' : `cases?to=${encodeURIComponent(to)}`;
  const answer = await ask<Taken>(path, token(), mine.body);
  underWay = false;
  if (answer.ok) {
    if (candidate === mine) {
      offer(undefined, say('screen.take.was-taken'));
      found(answer.body.findings);
    }
    said.textContent = say('screen.take.taken');
    addItems(answer.body.items, token);
  } else if (answer.status === 0) {
    said.textContent = say('screen.take.unknown', { why: answer.text });
  } else {
    said.textContent = say('screen.take.refused', { why: answer.text });
    if (answer.findings.length > 0 && candidate === mine) {
      found(answer.findings);
      offer({ ...mine, findings: answer.findings });
      said.textContent = say('screen.take.refused', { why: answer.text });
    }
  }
}
