import { finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { TallyEvent } from '../types.js';
import { wayIn } from './presence.js';
import { type DeviceState, type PartState, type Play, partLabel } from './state.js';
import { verbs } from './verbs.js';

/** An event about one part of a device. */
export function moveParts(play: Play, state: DeviceState, part: PartState, at: TallyEvent): void {
  const { event } = at;
  switch (event.do) {
    case 'remove':
    case 'retrieve':
    case 'exchange':
      takeOut(play, state, part, at);
      return;
    case 'cut':
    case 'fracture':
    case 'release':
    case 'detach':
      separate(play, state, part, at);
      return;
    case 'lose':
      losePart(play, state, part, at);
      return;
    case 'lock':
    case 'unlock':
      if (presentPart(play, state, part, at)) state.locked = event.do === 'lock';
      return;
    default:
      if (verbs[event.do].effect !== 'any') presentPart(play, state, part, at);
  }
}

/** How many of the part are still on the device. A fragment is on it only in the sense that it was never off. */
const attachedOf = (part: PartState) => part.count - part.inside - part.out;

/** A part is exchanged for another, never in. */
const doneTo = ({ event: { do: verb } }: TallyEvent) =>
  message(verb === 'exchange' ? 'done.replaced' : `done.${verb}`);

function presentPart(play: Play, state: DeviceState, part: PartState, at: TallyEvent): boolean {
  if (part.inside > 0 || part.open || (state.inside > 0 && attachedOf(part) > 0)) {
    play.marks.push({ device: state.key, part: part.key, what: 'act', count: 1, at });
    return true;
  }
  play.findings.push(absent(play, state, part, at));
  return false;
}

function absent(play: Play, state: DeviceState, part: PartState, at: TallyEvent) {
  const path = `${at.path}.part`;
  const params = {
    device: partLabel(state, part),
    done: doneTo(at),
    time: at.event.at.clock,
  };
  return part.went
    ? finding('tally.already-out', path, { ...params, earlier: part.went.by.event.at.clock })
    : finding('tally.not-inserted', path, params, wayIn(play, state, at));
}

/** What is apart already is lost before what is still on the device. */
function losePart(play: Play, state: DeviceState, part: PartState, at: TallyEvent): void {
  const apart = part.inside - part.lost;
  const wanted = at.event.count ?? apart + attachedOf(part);
  separate(play, state, part, at, Math.max(0, wanted - apart));
  if (part.inside === part.lost) return;
  part.lost = Math.min(part.inside, part.lost + wanted);
  part.lostBy = at;
}

/** @param number how many come off; all that are on it when the event does not say */
function separate(
  play: Play,
  state: DeviceState,
  part: PartState,
  at: TallyEvent,
  number = at.event.count ?? attachedOf(part),
): void {
  // Cut off on the table: it never was in the patient.
  if (at.event.do === 'cut' && state.inside + state.out === 0) {
    part.out = part.count;
    return;
  }
  if (!presentPart(play, state, part, at)) return;
  if (part.role === 'thread') state.locked = false;
  part.inside += Math.min(number, attachedOf(part));
  if (number > 0) part.apartBy = at;
  const { do: verb } = at.event;
  const broken =
    part.role === 'fragment'
      ? verb === 'fracture' || verb === 'cut'
      : part.role === 'attached' && verb === 'fracture';
  if (broken) state.broken ??= at;
}

function takeOut(play: Play, state: DeviceState, part: PartState, at: TallyEvent): void {
  const { event } = at;
  const reachable = part.count - part.out;
  const wasIn = state.inside > 0 || state.out > 0;
  if (reachable === 0 || !wasIn) {
    play.findings.push(absent(play, state, part, at));
    return;
  }
  if (part.role === 'fragment' && part.inside === 0)
    play.findings.push(
      finding('tally.fragment-unbroken', `${at.path}.part`, {
        part: partLabel(state, part),
        time: event.at.clock,
      }),
    );
  const wanted = event.count ?? 1;
  if (wanted > reachable)
    play.findings.push(
      finding('tally.count-removed', `${at.path}.part`, {
        device: partLabel(state, part),
        number: `${wanted}`,
        inside: `${reachable}`,
        time: event.at.clock,
      }),
    );
  const number = Math.min(wanted, reachable);
  if (part.role === 'thread') state.locked = false;
  part.inside = Math.max(0, part.inside - number);
  part.out += number;
  part.lost = Math.min(part.lost, part.inside);
  if (attachedOf(part) === 0) part.open = undefined;
  const how = message('end.done', { verb: doneTo(at), time: event.at.clock });
  part.went = { by: at, how };
  play.marks.push({ device: state.key, part: part.key, what: 'out', count: number, at });
}
