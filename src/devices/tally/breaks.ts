import { finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { TallyEvent } from '../types.js';
import type { DeviceState, Play } from './state.js';

/** A device is cut or breaks: every piece must then be accounted for, and its thread goes its own way. */
export function breakDevice(play: Play, state: DeviceState, at: TallyEvent): void {
  const { event } = at;
  const entered = state.inside > 0 || state.out > 0;
  // Cut to length on the table, or cut open after it came out: no piece of that is in the patient.
  if (!entered || (event.do === 'cut' && state.inside === 0)) return;
  play.marks.push({ device: state.key, what: 'act', count: 1, at });
  state.pieces += Math.max(1, event.pieces ?? 2) - 1;
  state.broken ??= at;
  if (state.inside > 0) state.piecesOut = 0;
  const parts = [...state.parts.values()];
  for (const part of parts) {
    if (part.role !== 'fragment' && part.role !== 'thread') continue;
    const attached = part.count - part.inside - part.out;
    if (attached <= 0 || (part.role === 'thread' && event.do === 'fracture')) continue;
    part.inside += attached;
    part.open = undefined;
    part.apartBy = at;
  }
  // Its kind or description says that a thread holds it.
  const { traits } = state.details;
  if (event.do === 'cut' && traits.has('locking') && !parts.some(part => part.role === 'thread'))
    play.findings.push(
      finding('tally.thread-undeclared', `${at.path}.device`, {
        device: state.label,
        done: message('done.cut'),
        time: event.at.clock,
      }),
    );
}
