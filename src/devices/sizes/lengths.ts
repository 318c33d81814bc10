import type { DeviceState } from '../tally/state.js';
import { type Verb, verbs } from '../tally/verbs.js';
import type { DeviceFamily } from '../types.js';
import { mmInFrench } from './calibre.js';
import { type Moment, type SizeContext, say, stateOf } from './context.js';
import { type Measure, shaftOf } from './geometry.js';

/** Tubes with an end that what goes through them has to come out of. */
const tubes: ReadonlySet<DeviceFamily> = new Set(['needle', 'catheter', 'sheath']);

/** Verbs that do their work inside at once, through a tube that was there before. */
const works: ReadonlySet<Verb> = new Set(['advance', 'sample', 'deploy', 'inflate']);

/** A shorter length of these is that of the working part, or of an implant that is pushed out. Common practice. */
const LEAST_SHAFT = mmInFrench('300');

/** What goes through a tube and has to come out of its end is longer than the tube. Geometry. */
export function checkLengths(context: SizeContext, moment: Moment): void {
  const { device, at } = moment;
  const { event } = at;
  const host = stateOf(moment, event.through);
  if (!device || !host || event.part !== undefined || host.key === device.key) return;
  const { effect } = verbs[event.do];
  if (effect !== 'enters' && effect !== 'swaps' && !works.has(event.do)) return;
  // A sheath that peels is split before the end of it matters.
  if (!tubes.has(host.details.family) || host.details.traits.has('peelable')) return;
  const length = workingLength(device, host);
  const around = shaftOf(host.details);
  if (!length || !around || length.french.gte(around.french)) return;
  say(context, [host.key, device.key], 'size.inner-short', `${at.path}.through`, {
    device: device.label,
    host: host.label,
    time: event.at.clock,
    length: length.text,
    hostLength: around.text,
  });
}

/** How far it reaches from its hub; undefined where the recorded length may be that of something else. */
function workingLength({ details }: DeviceState, host: DeviceState): Measure | undefined {
  const length = shaftOf(details);
  switch (details.family) {
    case 'catheter':
    case 'drain':
      return length;
    // A needle may pierce a catheter from outside; only in a needle or a sheath does it run from end to end.
    case 'needle':
      return host.details.family === 'catheter' ? undefined : length;
    case 'balloon':
    case 'stent':
    case 'retrieval':
      return length?.french.gte(LEAST_SHAFT) ? length : undefined;
    case 'accessory':
      return details.row === 'obturator' && host.details.family === 'needle' ? length : undefined;
    default:
      return undefined;
  }
}
