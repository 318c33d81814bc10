import { finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { DeviceDetails, TallyEvent } from '../types.js';
import { breakDevice } from './breaks.js';
import { moveParts } from './part-events.js';
import { come, enter, isThere, leave, missing, settleParts } from './presence.js';
import { checkRelations } from './relations.js';
import {
  type DeviceState,
  inOrder,
  isLocking,
  neverIn,
  type Play,
  partLabel,
  placeOf,
  startStates,
  stateOf,
} from './state.js';
import { type Verb, verbs } from './verbs.js';

/**
 * Plays the events of a record in the order of their times. Nothing is guessed: what cannot have been is a finding.
 * @param before called with each event and everything as it stands just before it
 */
export function playEvents(
  record: CaseRecord,
  devices: ReadonlyMap<string, DeviceDetails>,
  before?: (play: Play, at: TallyEvent) => void,
): Play {
  const events = inOrder(record);
  const play: Play = { record, states: startStates(devices, events), marks: [], findings: [] };
  for (const at of events) {
    before?.(play, at);
    playOne(play, at);
  }
  return play;
}

function playOne(play: Play, at: TallyEvent): void {
  const { event } = at;
  const row = verbs[event.do];
  if (row.needsDevice && event.device === undefined) {
    play.findings.push(finding('tally.no-device', at.path, { verb: event.do, time: event.at.clock }));
    return;
  }
  const state = stateOf(play, event.device);
  const enters = state !== undefined && event.part === undefined && puts(state, event.do);
  if (row.runs) checkRelations(play, at, enters);
  event.with?.forEach((key, index) => {
    const companion = play.states.get(key);
    const path = `${at.path}.with[${index}]`;
    if (!companion || companion.outside) return;
    if (row.effect === 'leaves') leave(play, companion, at, path);
    else if (enters) enter(play, companion, at, path);
    else isThere(play, companion, at, path);
  });
  if (!state || state.outside) return;
  if (event.part !== undefined) {
    const part = state.parts.get(event.part);
    if (part) moveParts(play, state, part, at);
    return;
  }
  actOn(play, state, at, enters);
  if (row.effect === 'swaps') swap(play, state, at);
}

/** True when this verb puts this device in, here. What is already in and is only set free does not enter again. */
function puts(state: DeviceState, verb: Verb): boolean {
  return state.entryVerbs.has(verb) && !(verb === 'puncture' && state.inside > 0);
}

function actOn(play: Play, state: DeviceState, at: TallyEvent, enters: boolean): void {
  const path = `${at.path}.device`;
  const { effect } = verbs[at.event.do];
  if (enters) {
    enter(play, state, at, path);
    if (setFree.has(at.event.do)) free(state);
  } else if (effect === 'leaves') leave(play, state, at, path);
  else if (at.event.do === 'open' && isInPlace(at)) isThere(play, state, at, path);
  else if (effect === 'any') actAnywhere(play, state, at, path);
  else if (isThere(play, state, at, path)) actInside(play, state, at, path);
  else if (at.event.do === 'advance' || at.event.do === 'cross') come(play, state, at);
}

/** Opened in the patient, and not from its package. */
const isInPlace = ({ event }: TallyEvent): boolean =>
  event.target !== undefined || event.across !== undefined || event.into !== undefined;

/** Events that need not find the device inside. */
function actAnywhere(play: Play, state: DeviceState, at: TallyEvent, path: string): void {
  const verb = at.event.do;
  if (verb === 'cut' || verb === 'fracture') breakDevice(play, state, at);
  else if (verb === 'discard') discard(play, state, at, path);
  else if (verb === 'count') count(play, state, at, path);
  else if (verb === 'lose') lose(play, state, at, path);
}

function actInside(play: Play, state: DeviceState, at: TallyEvent, path: string): void {
  const { event } = at;
  act(play, state, at);
  if (event.do === 'inflate') {
    state.inflated = true;
    state.everInflated = true;
  } else if (setFree.has(event.do)) free(state);
  if (event.do === 'deploy') deliveryOut(play, state, at);
  if (event.do === 'deflate') deflate(play, state, at, path);
  else if (event.do === 'lock') state.locked = true;
  else if (event.do === 'unlock' || event.do === 'release') {
    state.locked = false;
    releaseThreads(play, state, at);
  }
}

/** What is deployed comes off its delivery catheter, which must still be there. */
function deliveryOut(play: Play, state: DeviceState, at: TallyEvent): void {
  const gone = [...state.parts.values()].find(
    ({ kind, count, out }) => /\b(?:delivery|pusher)\b/i.test(kind) && out >= count,
  );
  if (gone?.went)
    play.findings.push(
      finding(
        'tally.already-out',
        `${at.path}.at`,
        {
          device: partLabel(state, gone),
          done: message('done.deploy'),
          time: at.event.at.clock,
          earlier: gone.went.by.event.at.clock,
        },
        { remedy: message('answer.timeBefore', { time: gone.went.by.event.at.clock }) },
      ),
    );
}

const setFree: ReadonlySet<Verb> = new Set(['deploy', 'detach', 'release']);

/** What is set free in the patient runs in no lumen any more. */
function free(state: DeviceState): void {
  if (state.details.family === 'catheter' || state.details.family === 'balloon') return;
  state.through = undefined;
  state.over = undefined;
}

function act(play: Play, state: DeviceState, at: TallyEvent): void {
  const { event } = at;
  const site = placeOf(play.record, event);
  const moved = event.do === 'advance' || event.do === 'reposition' || event.do === 'deploy';
  if (site && (moved || state.site === undefined)) state.site = site;
  play.marks.push({ device: state.key, what: 'act', count: event.count ?? 1, at });
}

function swap(play: Play, state: DeviceState, at: TallyEvent): void {
  const { event } = at;
  if (event.replaces === undefined) {
    play.findings.push(
      finding('tally.exchange-unsaid', at.path, { device: state.label, time: event.at.clock }),
    );
    return;
  }
  const old = play.states.get(event.replaces);
  if (old && !old.outside) leave(play, old, at, `${at.path}.replaces`);
}

function deflate(play: Play, state: DeviceState, at: TallyEvent, path: string): void {
  if (!state.everInflated && !state.details.carried)
    play.findings.push(finding('tally.not-inflated', path, { device: state.label, time: at.event.at.clock }));
  state.inflated = false;
}

/** Released without naming the thread: the thread is what a drain has to release. */
function releaseThreads(play: Play, state: DeviceState, at: TallyEvent): void {
  const threads = [...state.parts.values()].filter(part => part.role === 'thread');
  const held = state.details.family === 'drain' || isLocking(state.details);
  if (threads.length === 0 && held)
    play.findings.push(
      finding('tally.thread-undeclared', `${at.path}.device`, {
        device: state.label,
        done: message(`done.${at.event.do}`),
        time: at.event.at.clock,
      }),
    );
  if (at.event.do === 'release') for (const thread of threads) moveParts(play, state, thread, at);
}

function discard(play: Play, state: DeviceState, at: TallyEvent, path: string): void {
  const spare = neverIn(state);
  const wanted = at.event.count ?? spare;
  // What came out is thrown away too; that changes nothing.
  const thrown = Math.min(wanted, spare);
  state.discarded += thrown;
  if (thrown > 0) state.discardedBy = at;
  if (wanted > spare + state.out || (thrown === 0 && state.inside > 0))
    play.findings.push(
      finding('tally.discarded-inside', path, {
        device: state.label,
        time: at.event.at.clock,
        inside: `${state.inside}`,
      }),
    );
}

function count(play: Play, state: DeviceState, at: TallyEvent, path: string): void {
  const counted = at.event.count;
  // Implants counted on the image agree with what is inside; swabs are counted outside.
  if (counted === undefined || counted === state.inside) return;
  const outside = state.total - state.inside - state.discarded;
  if (counted > outside)
    play.findings.push(
      finding('tally.count-differs', path, {
        device: state.label,
        number: `${counted}`,
        inside: `${state.inside}`,
        outside: `${outside}`,
        time: at.event.at.clock,
      }),
    );
  const found = Math.min(counted, outside);
  if (found <= state.out) return;
  state.out = found;
  state.went = { by: at, how: message('end.counted', { time: at.event.at.clock }) };
  if (state.inside === 0) settleParts(state, at);
}

function lose(play: Play, state: DeviceState, at: TallyEvent, path: string): void {
  if (state.inside === 0) {
    play.findings.push(missing(play, state, at, path));
    return;
  }
  state.lost = Math.min(state.inside, state.lost + (at.event.count ?? 1));
  state.lostBy = at;
  act(play, state, at);
}
