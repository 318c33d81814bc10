import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { TallyEntry } from '../types.js';
import { type Closed, notFound, spare } from './close-rows.js';
import { kitOf } from './kit.js';
import type { LeftLines } from './left.js';
import { type DeviceState, neverIn } from './state.js';

/** Those of a device that never went in. */
export function closeUnused(record: CaseRecord, state: DeviceState, left: LeftLines): Closed {
  const entries: TallyEntry[] = [];
  const findings: Finding[] = [];
  const { use } = state.details.entry;
  const kit = use === undefined ? kitOf(record, state.key) : undefined;
  const { discarded, discardedBy } = state;
  if (discardedBy) {
    const why = message('end.discarded', { time: discardedBy.event.at.clock });
    const end = use === 'unopened' ? 'discarded unused unopened' : 'discarded unused opened';
    entries.push(spare(state, end, why, discarded, discardedBy));
  }
  const rest = neverIn(state);
  if (rest === 0) return { entries, findings };
  if (use === 'unopened')
    entries.push(spare(state, 'discarded unused unopened', message('end.notOpened'), rest));
  else if (use === 'opened unused' || use === 'failed') {
    const because = message(use === 'failed' ? 'end.failed' : 'end.openedUnused');
    entries.push(spare(state, 'discarded unused opened', because, rest));
  } else if (state.outside && !kit)
    entries.push(spare(state, 'removed intact', message('end.outside'), rest));
  else if (record.case.status === 'not done' && rest === state.total && !kit)
    entries.push(spare(state, 'discarded unused unopened', message('end.notDone'), rest));
  else {
    const open = notFound(state, left, rest, undefined);
    entries.push(...open.entries);
    if (open.rest === 0) return { entries, findings };
    const path = `devices.${state.key}`;
    findings.push(
      open.rest === state.total
        ? kit
          ? finding('intake.kit-device-open', path, { device: state.label, source: kit, key: state.key })
          : finding('tally.no-events', path, { device: state.label })
        : finding('tally.count-unaccounted', path, {
            device: state.label,
            number: `${open.rest}`,
            total: `${state.total}`,
          }),
    );
    entries.push(spare(state, 'unaccounted', message('end.noEvent'), open.rest));
  }
  return { entries, findings };
}

/** What is called unused, and is or was inside. */
export function unusedButUsed(state: DeviceState): Finding[] {
  const { use } = state.details.entry;
  if ((use !== 'unopened' && use !== 'opened unused') || state.inside + state.out === 0) return [];
  const at = state.inserted ?? state.went?.by.event.at;
  const where = at ? message('end.putInside', { time: at.clock }) : message('end.wasInside');
  return [finding('tally.unused-but-used', `devices.${state.key}.use`, { device: state.label, use, where })];
}
