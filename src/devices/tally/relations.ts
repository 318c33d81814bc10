import { finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { printMm } from '../sizes/calibre.js';
import { lumenOf, outerOf, withMm } from '../sizes/geometry.js';
import type { TallyEvent } from '../types.js';
import { isNamedLater } from './remedies.js';
import { type DeviceState, moves, type Play, stateOf } from './state.js';

/** The wire it ran over and the tube it ran through must be inside at that moment, or go in with it. */
export function checkRelations(play: Play, at: TallyEvent, enters: boolean): void {
  const { event } = at;
  for (const field of ['over', 'through'] as const) {
    const other = stateOf(play, event[field]);
    if (!other || other.inside > 0 || other.outside || (enters && moves(event, other.key))) continue;
    const params = {
      device: stateOf(play, event.device)?.label ?? message('name.something'),
      done: message(`done.${event.do}`),
      other: other.label,
      time: event.at.clock,
      where: other.went
        ? message('end.cameOut', { time: other.went.by.event.at.clock })
        : message('end.notInside'),
    };
    const code =
      field === 'through'
        ? 'tally.through-not-inside'
        : event.do === 'exchange'
          ? 'tally.no-wire'
          : 'tally.over-not-inside';
    play.findings.push(finding(code, `${at.path}.${field}`, params));
  }
}

/** Devices that run in the lumen of this one at the moment. */
export function runsIn(play: Play, key: string): DeviceState[] {
  return [...play.states.values()].filter(state => state.through === key && state.inside > 0);
}

/** Where the other is still inside afterwards, its removal is no way out. */
const ORDER = message('answer.wentThrough');

/**
 * Two devices side by side in one lumen need room for both diameters. Whatever runs one inside the other is no
 * neighbour, and unknown sizes never raise this.
 */
export function checkLumen(play: Play, state: DeviceState, at: TallyEvent): void {
  const { event } = at;
  const host = stateOf(play, event.through);
  if (host?.inside !== 1) return;
  const lumen = lumenOf(host.details);
  const mine = outerOf(state.details);
  if (!lumen || !mine) return;
  const hollow = state.details.family !== 'guidewire';
  for (const other of runsIn(play, host.key)) {
    const theirs = outerOf(other.details);
    const coaxial =
      other.key === event.over ||
      other.key === event.replaces ||
      event.with?.includes(other.key) ||
      (hollow && other.details.family === 'guidewire');
    if (!theirs || coaxial || other.key === state.key) continue;
    const both = mine.french.plus(theirs.french);
    if (both.lte(lumen.french)) continue;
    const severity = both.gt(lumen.french.times('1.2')) ? 'error' : 'warning';
    const params = {
      device: state.label,
      other: other.label,
      host: host.label,
      time: event.at.clock,
      both: printMm(both),
      lumen: withMm(lumen),
    };
    const remedy = isNamedLater(play.record, other.key, at) && { remedy: ORDER };
    play.findings.push(finding('tally.lumen-taken', `${at.path}.through`, params, { severity, ...remedy }));
  }
}
