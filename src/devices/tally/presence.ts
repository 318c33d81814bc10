import { type Finding, type FindingOptions, finding } from '../../findings/finding.js';
import { type Message, message, type Param } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseEvent } from '../../record/schema/record.js';
import type { TallyEvent } from '../types.js';
import { mustBeSaid } from './parts.js';
import { checkLumen, runsIn } from './relations.js';
import {
  type DeviceState,
  inOrder,
  missingPieces,
  moves,
  neverIn,
  type PartState,
  type Play,
  placeOf,
  stateOf,
} from './state.js';
import { verbs } from './verbs.js';

/** The finding for something that is not inside when it should be: it came out earlier, or never went in. */
export function missing(play: Play, state: DeviceState, at: TallyEvent, path: string): Finding {
  const { event } = at;
  const done = message(event.replaces === state.key ? 'done.replaced' : `done.${event.do}`);
  const params = { device: state.label, done, time: event.at.clock };
  if (state.went)
    return finding('tally.already-out', path, { ...params, earlier: state.went.by.event.at.clock });
  return finding('tally.not-inserted', path, params, wayIn(play, state, at));
}

/** What to do about something that is not in yet, where the record tells more than that: it goes in later, or was not used. */
export function wayIn(play: Play, state: DeviceState, at: TallyEvent): FindingOptions {
  const later = comesLater(play, state, at);
  if (later) {
    const params = {
      done: message(`done.${later.event.do}`),
      time: later.event.at.clock,
      place: later.path,
    };
    const stays =
      verbs[at.event.do].effect === 'leaves' &&
      entriesOf(play.record.left).some(({ device }) => device === state.key);
    return { remedy: message(stays ? 'answer.comesLaterStays' : 'answer.comesLater', params) };
  }
  const { use } = state.details.entry;
  return use === undefined || use === 'used' ? {} : { remedy: message('answer.calledUnused', { use }) };
}

/** The event that puts the device in, where it stands after one that needs it inside. */
const comesLater = ({ record }: Play, state: DeviceState, { event }: TallyEvent): TallyEvent | undefined =>
  inOrder(record).find(
    one =>
      one.event.at.epoch >= event.at.epoch &&
      moves(one.event, state.key) &&
      state.entryVerbs.has(one.event.do),
  );

/** True when the device is inside; else says so. */
export function isThere(play: Play, state: DeviceState, at: TallyEvent, path: string): boolean {
  if (state.inside > 0) return true;
  play.findings.push(missing(play, state, at, path));
  return false;
}

/** Something enters the patient. */
export function enter(play: Play, state: DeviceState, at: TallyEvent, path: string): void {
  const { event } = at;
  const own = event.device === state.key;
  const wanted = (own ? event.count : undefined) ?? state.perEntry;
  const free = Math.max(0, state.total - state.inside - state.discarded);
  // Cement and embolics are given in portions: more of the same is no second device.
  if (event.do === 'inject' && wanted > free && state.inside > 0 && event.count === undefined) {
    play.marks.push({ device: state.key, what: 'act', count: 1, at });
    return;
  }
  const time = event.at.clock;
  if (wanted > free) {
    state.doubt ??= at;
    const done = message(`done.${event.do}`);
    play.findings.push(
      state.total === 1 && state.inside === 1
        ? finding('tally.inserted-twice', path, {
            device: state.label,
            time,
            earlier: state.cameBy?.event.at.clock ?? message('answer.earlierCase'),
          })
        : finding('tally.count-over', path, {
            device: state.label,
            number: `${wanted}`,
            there: `${free}`,
            done,
            time,
          }),
    );
  }
  if (own) checkLumen(play, state, at);
  come(play, state, at, Math.min(wanted, free));
}

/** Moves devices in, whatever is said about it. */
export function come(play: Play, state: DeviceState, at: TallyEvent, number = 1): void {
  const { event } = at;
  const again = Math.max(0, number - neverIn(state));
  state.inside += number;
  state.out = Math.max(0, state.out - again);
  state.inserted ??= event.at;
  state.cameBy = at;
  state.condition = undefined;
  if (again > 0) for (const part of state.parts.values()) comeAgain(part);
  state.over = event.over;
  state.through = event.through;
  const site = placeOf(play.record, event);
  if (site) state.site = site;
  play.marks.push({ device: state.key, what: 'in', count: number, at });
}

/** A device that goes in again takes along what had come out with it. */
function comeAgain(part: PartState): void {
  if (part.cameWith) part.out = 0;
  part.cameWith = false;
}

/** Something leaves the patient. */
export function leave(play: Play, state: DeviceState, at: TallyEvent, path: string): void {
  const { event } = at;
  if (!isThere(play, state, at, path)) return;
  const own = event.device === state.key;
  const wanted = (own ? event.count : undefined) ?? 1;
  if (wanted > state.inside)
    play.findings.push(
      finding('tally.count-removed', path, {
        device: state.label,
        number: `${wanted}`,
        inside: `${state.inside}`,
        time: event.at.clock,
      }),
    );
  const number = Math.min(wanted, state.inside);
  state.inside -= number;
  state.out += number;
  state.lost = Math.min(state.lost, state.inside);
  state.went = { by: at, how: whyOut(play, state, at) };
  const looked = wasLookedAt(state, event);
  if (looked) state.condition = event.state;
  state.piecesOut += (looked ? event.pieces : undefined) ?? 1;
  play.marks.push({ device: state.key, what: 'out', count: number, at });
  if (state.inside > 0) return;
  warnOfForce(play, state, at, path);
  settleParts(state, at);
  for (const inner of runsIn(play, state.key)) inner.through = state.through;
  for (const outer of play.states.values()) if (outer.over === state.key) outer.over = undefined;
  state.through = undefined;
  state.over = undefined;
}

/** Whether state and pieces of an event are those of a device: of the one that it is about, or in an exchange of the old one. */
const wasLookedAt = ({ key }: DeviceState, event: CaseEvent) =>
  (event.do === 'exchange' ? event.replaces : event.device) === key;

function whyOut(play: Play, state: DeviceState, at: TallyEvent): Message {
  const how = howOut(play, state, at);
  const damaged = wasLookedAt(state, at.event) && at.event.state === 'damaged';
  return damaged ? message('end.damaged', { how }) : how;
}

/** `removed over stiff at 10:05`, `exchanged for drain2 at 11:20`. */
function howOut(play: Play, state: DeviceState, { event }: TallyEvent): Message {
  const time = event.at.clock;
  const verb = message(`done.${event.do}`);
  if (event.device !== state.key) {
    const device = called(play, event.device) ?? message('end.another');
    return event.replaces === state.key
      ? message('end.exchanged', { device, time })
      : message('end.doneWith', { verb, device, time });
  }
  const over = called(play, event.over);
  const through = called(play, event.through);
  if (over) return message('end.doneOver', { verb, device: over, time });
  return through
    ? message('end.doneThrough', { verb, device: through, time })
    : message('end.done', { verb, time });
}

/** What a device is called, for people: never its key. */
const called = (play: Play, key: string | undefined): Param | undefined => stateOf(play, key)?.details.called;

/** Words of a removal that tell what let the device go. */
const unlocked = /\b(?:unlock\w*|releas\w+|cut|undone|unpinned|opened|straight\w*)\b/i;
const emptied = /\b(?:deflat\w+|empt\w+|burst|ruptured|flat|let down|leaked)\b/i;

function warnOfForce(play: Play, state: DeviceState, at: TallyEvent, path: string): void {
  const { event } = at;
  const params = { device: state.label, time: event.at.clock };
  const told = [event.result, event.note, state.details.entry.carried?.note].join(' ');
  if (state.locked && state.broken === undefined && !unlocked.test(told))
    play.findings.push(finding('tally.removed-locked', path, params));
  const soft = state.details.family !== 'stent';
  if (state.inflated && soft && !emptied.test(told))
    play.findings.push(finding('tally.removed-inflated', path, params));
  state.locked = false;
  state.inflated = false;
}

/** What becomes of the parts still attached when their device comes out. */
export function settleParts(state: DeviceState, at: TallyEvent): void {
  const parts = [...state.parts.values()];
  const separated = parts.some(part => part.inside > 0) || state.broken !== undefined;
  const lacking = at.event.state === 'part missing' && wasLookedAt(state, at.event) && !separated;
  // A piece that is missing may be any part that was still on it.
  const unexplained = lacking || missingPieces(state) > 0;
  for (const part of parts) {
    const attached = part.count - part.inside - part.out;
    if (attached <= 0 || part.role === 'fragment') continue;
    if (part.role === 'half' && at.event.do === 'peel away') {
      part.inside += attached;
      part.apartBy = at;
    } else if (mustBeSaid(part.role) || unexplained) part.open ??= at;
    else {
      part.out += attached;
      part.cameWith = true;
      const time = at.event.at.clock;
      part.went = { by: at, how: message('end.cameWith', { device: state.details.called, time }) };
    }
  }
}
