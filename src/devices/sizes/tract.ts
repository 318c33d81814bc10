import type { Decimal } from '../../record/decimal.js';
import type { DeviceState, Play } from '../tally/state.js';
import type { DeviceFamily } from '../types.js';
import { type Moment, type SizeContext, say, stateOf } from './context.js';
import { lumenOf, type Measure, outerOf } from './geometry.js';

/** A drain may be this much wider than the last dilator, in Fr. Common practice, no source. */
const SPARE = '2';

/** The wall of a sheath adds this much to its lumen, in Fr. Common practice, no source. */
const WALL = '2';

/** What opens a tract to another width than its own way in. */
const widens: ReadonlySet<DeviceFamily> = new Set(['balloon', 'drain', 'tube', 'stent']);

/**
 * A drain much wider than the widest dilator before it. Only where every dilator of the case is known, and nothing else,
 * over any wire, may have opened a tract further: which of two tracts a device was in is not told apart.
 */
export function checkTract(context: SizeContext, moment: Moment): void {
  const { device, at, play } = moment;
  const { event } = at;
  const wire = stateOf(moment, event.over);
  if (device?.details.family !== 'drain' || wire?.details.family !== 'guidewire') return;
  if (event.do !== 'insert' || event.part !== undefined || event.through !== undefined) return;
  const drain = outerOf(device.details);
  const before = [...play.states.values()].filter(
    other => other.key !== device.key && (other.details.carried || other.inserted !== undefined),
  );
  if (!drain || hasDilator(device)) return;
  const dilators = before.filter(({ details }) => details.family === 'dilator');
  const widest = widestOf(dilators);
  if (!widest || drain.french.minus(widest.measure.french).lte(SPARE)) return;
  const fills = drain.french.minus(SPARE);
  if (before.some(other => opensTo(play, other, fills))) return;
  if (!ranOver(play, widest.state, wire.key)) return;
  say(context, [device.key, widest.state.key], 'size.tract-small', `${at.path}.over`, {
    device: device.label,
    wire: wire.label,
    time: event.at.clock,
    size: drain.text,
    dilator: widest.state.label,
    dilated: widest.measure.text,
  });
}

const hasDilator = ({ parts }: DeviceState): boolean =>
  [...parts.values()].some(({ kind }) => /dilat/i.test(kind));

/** Whether a device went over a wire, or over the one that is named. */
const ranOver = ({ record }: Play, { key }: DeviceState, wire?: string): boolean =>
  (record.events ?? []).some(
    ({ device, over }) => device === key && over !== undefined && (wire === undefined || over === wire),
  );

/** Whether something other than a dilator may have opened a tract to that many Fr. */
function opensTo(play: Play, state: DeviceState, french: Decimal): boolean {
  const { details } = state;
  // A catheter that went over no wire lies in a passage of its own, such as the rectum.
  if (details.family === 'catheter')
    return (details.carried || ranOver(play, state)) && !outerOf(details)?.french.lt(french);
  if (details.family === 'sheath') return !lumenOf(details)?.french.plus(WALL).lt(french);
  return widens.has(details.family);
}

/** The widest of some dilators; undefined where one is of unknown size, or may be a series. */
function widestOf(
  dilators: readonly DeviceState[],
): { readonly state: DeviceState; readonly measure: Measure } | undefined {
  const measured = dilators.flatMap(state => {
    const measure = outerOf(state.details);
    return measure && !isSeries(state) ? [{ state, measure }] : [];
  });
  if (measured.length < dilators.length) return undefined;
  return measured.sort((a, b) => b.measure.french.cmp(a.measure.french))[0];
}

const isSeries = ({ details, total }: DeviceState): boolean =>
  total > 1 ||
  details.size?.upTo !== undefined ||
  details.row === 'telescopic dilator' ||
  /\d|set|serial|sequen|series/i.test(
    `${details.kind} ${details.description ?? ''} ${details.entry.note ?? ''}`,
  );
