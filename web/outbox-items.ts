import type { Item } from './answers.js';
import { ask } from './ask.js';
import { byId, element } from './element.js';
import { findingList } from './findings.js';
import { say, sayWith } from './words.js';

const list = byId('items', HTMLElement);

/** How often items are asked for, in milliseconds. */
const PAUSE = 3000;

const heading = element('h3', { tabindex: '-1' }, say('screen.outbox'));
const trouble = element('p', { role: 'status' });
const rows = element('ul', { class: 'items' });
/** What each row was last made of, so that one that has not changed is left alone and is not read out again. */
const shown = new Map<string, { readonly text: string; readonly row: HTMLElement }>();
const items = new Map<string, Item>();
let timer: number | undefined;

/** Adds items and asks for them until nothing more can become of them. */
export function addItems(added: readonly Item[], token: () => string): void {
  list.replaceChildren(heading, trouble, rows);
  rows.setAttribute('aria-live', 'polite');
  for (const item of added) show(item);
  heading.focus();
  clearTimeout(timer);
  timer = setTimeout(() => void again(token), PAUSE);
}

async function again(token: () => string): Promise<void> {
  if (!document.hidden)
    for (const { id, state } of items.values()) {
      if (state === 'delivered' || state === 'discarded') continue;
      const answer = await ask<Item>(`outbox/${encodeURIComponent(id)}`, token());
      const said = answer.ok ? '' : say('screen.outbox.again', { why: answer.text });
      if (trouble.textContent !== said) trouble.textContent = said;
      if (answer.ok) show(answer.body);
    }
  const open = [...items.values()].some(({ state }) => state !== 'delivered' && state !== 'discarded');
  if (open) timer = setTimeout(() => void again(token), PAUSE);
}

function show(item: Item): void {
  items.set(item.id, item);
  const text = JSON.stringify(item);
  const before = shown.get(item.id);
  if (before?.text === text) return;
  const row = rowOf(item);
  shown.set(item.id, { text, row });
  if (before) before.row.replaceWith(row);
  else rows.append(row);
}

function rowOf({
  id,
  destination,
  state,
  created,
  attempts,
  outcomeUnknown,
  reason: word,
  said,
  parked,
  receipt,
}: Item): HTMLElement {
  const reason = said?.reason ?? word;
  const facts = [
    attempts > 0 ? say('screen.outbox.attempts', { n: attempts }) : '',
    // Of a parked item the findings say what is known of it.
    outcomeUnknown && state !== 'parked' ? say('screen.outbox.unknown') : '',
    receipt ? say('screen.outbox.receipt', { time: receipt.sentAt }) : '',
    reason === undefined ? '' : say('screen.outbox.reason', { reason }),
  ].filter(Boolean);
  return element(
    'li',
    { class: state },
    element(
      'p',
      {},
      ...sayWith('screen.outbox.row', {
        destination: element('strong', {}, destination),
        state: say(`screen.outbox.${state}`),
      }),
    ),
    ...(facts.length > 0 ? [element('p', {}, facts.join(' '))] : []),
    element(
      'p',
      { class: 'hint' },
      ...sayWith('screen.outbox.item', { id: element('code', {}, id), time: created }),
    ),
    ...(parked && parked.findings.length > 0 ? [findingList(parked.findings)] : []),
  );
}
