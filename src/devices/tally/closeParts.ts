import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { EndState, TallyEntry, TallyEvent } from '../types.js';
import { conditionMissing, type LeftLine, type LeftLines, leftState, named } from './left.js';
import { type DeviceState, type PartState, partLabel } from './state.js';

interface Closed {
  readonly entries: readonly TallyEntry[];
  readonly findings: readonly Finding[];
}

/**
 * The end states of the parts of one device.
 * @param whole row of the device while it is inside or unused: parts still on it share its state
 */
export function closeParts(
  record: CaseRecord,
  state: DeviceState,
  left: LeftLines,
  whole: TallyEntry | undefined,
): Closed {
  const closed = [...state.parts.values()].map(part => closePart(record, state, part, left, whole));
  return { entries: closed.flatMap(c => c.entries), findings: closed.flatMap(c => c.findings) };
}

function closePart(
  record: CaseRecord,
  state: DeviceState,
  part: PartState,
  left: LeftLines,
  whole: TallyEntry | undefined,
): Closed {
  const entries: TallyEntry[] = [];
  const findings: Finding[] = [];
  const line = left.about(state.key, part.key, false);
  const add = (end: EndState, because: string, count: number, event?: TallyEvent, by?: LeftLine) => {
    const site = by?.entry.site ?? (part.out > 0 && part.inside === 0 ? undefined : state.site);
    entries.push({
      device: state.key,
      part: part.key,
      name: `${part.kind} of ${state.key}`,
      state: end,
      because,
      ...(event && { event }),
      ...(state.inserted && { inserted: state.inserted }),
      ...(end === 'removed intact' && part.removed && { removed: part.removed }),
      count,
      carried: state.details.carried,
      ...(site && end !== 'removed intact' && { site }),
      ...(by && { left: { index: by.index, entry: by.entry } }),
    });
  };
  const stays = (because: string, count: number, event: TallyEvent | undefined, by: LeftLine) => {
    const judged = leftState(by, state);
    findings.push(...judged.findings);
    if (
      judged.state === 'in situ temporary' &&
      by.entry.purpose === 'temporary' &&
      conditionMissing(record, by)
    )
      findings.push(finding('tally.no-condition', by.path, { what: named(by) }));
    add(judged.state, because, count, event, by);
  };
  const unsaid = (count: number, event: TallyEvent | undefined, why: string) => {
    const time = event?.event.at.clock ?? '';
    const path = event?.path ?? `devices.${state.key}.parts.${part.key}`;
    findings.push(
      finding('tally.part-unaccounted', path, {
        part: partLabel(state, part),
        why,
        key: part.key,
        device: state.key,
      }),
    );
    add(
      'unaccounted',
      `${why}${time === '' ? '' : ` at ${time}`}; its removal is not recorded`,
      count,
      event,
    );
  };

  const apart = part.inside - part.lost;
  if (part.lost > 0) {
    const by = left.about(state.key, part.key, true);
    const time = part.event?.event.at.clock ?? '';
    const path = part.event?.path ?? `devices.${state.key}.parts.${part.key}`;
    findings.push(
      by
        ? finding('tally.retained', by.path, { what: named(by) })
        : finding('tally.retained-unsaid', path, { what: partLabel(state, part), time }),
    );
    add('retained unintended', `lost at ${time}`, part.lost, part.event, by);
  }
  if (apart > 0) {
    const why = `${apartWords(part)} ${state.key}`;
    if (line) stays(`${why} at ${part.event?.event.at.clock ?? ''}, and left`, apart, part.event, line);
    else unsaid(apart, part.event, why);
  }
  if (part.out > 0) add('removed intact', part.because ?? 'removed', part.out, part.event);
  const attached = part.count - part.inside - part.out;
  if (attached > 0) {
    if (part.open) {
      const why = `not seen when ${state.key} was ${openWords(part.open)}`;
      if (line) stays(`left when ${state.key} was ${openWords(part.open)}`, attached, part.open, line);
      else unsaid(attached, part.open, why);
    } else if (part.role === 'fragment' && state.inside + state.out > 0) {
      if (line) stays('broken off, and left', attached, undefined, line);
      else {
        const path = `devices.${state.key}.parts.${part.key}`;
        findings.push(
          finding('tally.fragment-unbroken', path, { part: partLabel(state, part), time: 'any time' }),
        );
        add('unaccounted', 'no event says when it broke off', attached);
      }
    } else if (part.role === 'inner' && state.inside > 0 && !line)
      unsaid(attached, state.cameBy, `inside with ${state.key}`);
    else if (line && state.inside > 0) stays(`on ${state.key}`, attached, state.cameBy, line);
    else if (whole) add(whole.state, `on ${state.key}: ${whole.because}`, attached, whole.event);
  }
  return { entries, findings };
}

function apartWords(part: PartState): string {
  const verb = part.event?.event.do;
  if (verb === 'release') return 'released from';
  if (verb === 'cut') return 'cut from';
  if (verb === 'fracture') return 'broken off';
  return 'separated from';
}

function openWords({ event }: TallyEvent): string {
  return event.do === 'exchange' ? 'exchanged' : event.do === 'retrieve' ? 'retrieved' : 'removed';
}
