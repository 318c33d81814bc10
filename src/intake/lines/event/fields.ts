import { message } from '../../../findings/message.js';
import type { LineNotes } from '../table/bench.js';
import type { OnTable } from '../table/table.js';
import type { Clause } from '../text/clauses.js';
import type { Token } from '../text/tokens.js';
import type { ProposedEvent } from '../types.js';
import type { Act } from '../words/entry.js';
import { isPlaced } from './plans.js';
import { type Draft, type Reading, rolesOf, textOf } from './reading.js';
import { agentOf, countOf } from './said.js';

/** Amounts, counts, agents, states. */
export function fields(
  { clause, amounts, notes }: Reading,
  event: Draft,
  act: Act,
  device: OnTable | undefined,
): void {
  if (amounts.pressure !== undefined) event.pressure = amounts.pressure;
  if (amounts.duration !== undefined) event.duration = amounts.duration;
  if (amounts.volume !== undefined) event.volume = amounts.volume;
  for (const other of amounts.others)
    if (!(act === 'image' && other.piece?.is === 'amount' && other.piece.unit === '%'))
      notes.unclear([other]);
  const agent = agentOf(clause);
  const fills = act === 'inflate' && agent !== 'air';
  if (agent !== undefined && (act === 'inject' || act === 'flush' || act === 'lock' || fills))
    event.agent = agent;
  else if (agent !== undefined) notes.unclear(rolesOf(clause, 'fluid'));
  const out = clause.tokens.find(({ entry }) => entry?.role === 'fluid' && entry.out);
  if (out) event.result = out.text;
  const count = countOf(clause);
  if (act === 'sample') event.result = textOf(clause, notes.line);
  if (
    count !== undefined &&
    (count > 1 || act === 'sample' || device === undefined || device.count > 1 || isPlaced(device))
  )
    event.count = count;
  const guided = rolesOf(clause, 'guidance')[0]?.entry;
  if (guided?.role === 'guidance') event.guidance = guided.guidance;
  if (act === 'fix') event.fixedBy ??= fixing(clause, notes.line);
  if (act === 'setting') {
    const to = setting(clause);
    if (to !== '') event.to ??= to;
    const depth = rolesOf(clause, 'atSkin').length > 0 && clause.tokens.find(isLength);
    if (depth && depth.piece?.is === 'amount') event.depth = depth.piece.amount;
  }
  if (act === 'lock' && device) {
    const thread = Object.entries(device.parts).find(([, kind]) => /thread|string/i.test(kind));
    if (thread) event.part = thread[0];
  }
  const states = rolesOf(clause, 'state').flatMap(({ entry, text }) =>
    entry?.role === 'state' ? [{ state: entry.state, text }] : [],
  );
  if (comesOut.has(event.do)) stateOf(notes, event, states);
  else if (event.do !== 'attempt') notes.unclear(rolesOf(clause, 'state'));
  const seen = rolesOf(clause, 'seen');
  if (seen.length > 0) event.result = seen.map(({ text }) => text).join(', ');
}

/** What may be looked at as it comes out. */
const comesOut: ReadonlySet<string> = new Set(['remove', 'retrieve', 'exchange', 'withdraw', 'peel away']);

const isLength = ({ piece }: Token) => piece?.is === 'amount' && piece.dimension === 'length';

function stateOf(
  notes: LineNotes,
  event: Draft,
  states: readonly { state: NonNullable<ProposedEvent['state']>; text: string }[],
): void {
  const [first] = states;
  if (!first) return;
  const worst =
    states.find(({ state }) => state === 'part missing') ??
    states.find(({ state }) => state === 'damaged') ??
    first;
  if (states.some(({ state }) => state !== first.state))
    notes.doubt(message('line.askBack', { word: states.map(({ text }) => text).join(', ') }));
  event.state = worst.state;
  if (worst.state !== 'intact') event.result = states.map(({ text }) => text).join(', ');
}

function fixing(clause: Clause, line: string): string {
  const said = clause.tokens
    .filter(({ entry }) => entry?.role === 'fixing')
    .map(({ start, end }) => line.slice(start, end));
  const verbs = clause.tokens.filter(({ entry }) => entry?.role === 'act').map(({ text }) => text);
  const verb = verbs.find(one => /^(?:sutur|stitch|sewn)/i.test(one)) ?? verbs[0] ?? '';
  if (/^(?:sutur|stitch|sewn)/i.test(verb)) return ['suture', ...said].join(' and ');
  return said.join(' and ') || verb.toLowerCase();
}

/** As a record says it. */
const settings: readonly (readonly [RegExp, string])[] = [
  [/^clamp/i, 'clamped'],
  [/^cap/i, 'capped'],
  [/^spigot/i, 'spigotted'],
  [/^unclamp/i, 'unclamped'],
];

function setting(clause: Clause): string {
  const said = clause.tokens.find(({ entry }) => entry?.role === 'setting')?.text;
  const verb = clause.tokens.find(
    ({ entry, text }) => entry?.role === 'act' && /^(?:un)?(?:clamp|cap|spigot)/i.test(text),
  )?.text;
  // `clamp off`
  if (verb !== undefined && clause.particles.has('out'))
    return /^un/i.test(verb)
      ? verb.toLowerCase()
      : `un${settings.find(([one]) => one.test(verb))?.[1] ?? verb.toLowerCase()}`;
  return (
    said ??
    (verb === undefined ? '' : (settings.find(([said]) => said.test(verb))?.[1] ?? verb.toLowerCase()))
  );
}
