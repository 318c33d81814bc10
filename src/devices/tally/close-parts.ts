import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { partNamed } from '../parts.js';
import type { EndState, TallyEntry, TallyEvent } from '../types.js';
import { partCounts } from './close-against.js';
import type { Closed } from './close-rows.js';
import { conditionMissing, type LeftLine, type LeftLines, leftState, named } from './left.js';
import { type MissingLine, whyMissing } from './missing.js';
import { type DeviceState, type PartState, partLabel } from './state.js';

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
  const spokenFor = new Map<LeftLine, number>();
  const add = (
    end: EndState,
    why: Message,
    count: number,
    event?: TallyEvent,
    by?: LeftLine,
    missing?: MissingLine,
  ) => {
    const site = by?.entry.site ?? state.site;
    if (by) spokenFor.set(by, (spokenFor.get(by) ?? 0) + count);
    entries.push({
      device: state.key,
      part: part.key,
      name: message('name.part', { part: partNamed(part.kind), device: state.details.called }),
      state: end,
      why,
      ...(event && { event }),
      ...(state.inserted && { inserted: state.inserted }),
      ...(end === 'removed intact' && part.went && { removed: part.went.by.event.at }),
      count,
      carried: state.details.carried,
      ...(site && end !== 'removed intact' && { site }),
      ...(by && { left: { index: by.index, entry: by.entry } }),
      ...(missing && { missing: { index: missing.index, entry: missing.entry } }),
    });
  };
  /** Pieces that the record calls missing; gives how many remain open. */
  const notFound = (open: number, event?: TallyEvent): number => {
    const { taken, rest } = left.missing.take(state.key, part.key, open);
    for (const { line: sought, count } of taken)
      add('missing', whyMissing(sought), count, event, undefined, sought);
    return rest;
  };
  const stays = (why: Message, count: number, event: TallyEvent | undefined, by: LeftLine) => {
    const judged = leftState(by, state);
    findings.push(...judged.findings);
    if (by.entry.purpose === 'temporary' && conditionMissing(record, by))
      findings.push(finding('tally.no-condition', by.path, { what: named(by) }));
    add(judged.state, why, count, event, by);
  };
  const unsaid = (open: number, event: TallyEvent | undefined, how: Message) => {
    const count = notFound(open, event);
    if (count === 0) return;
    const time = event?.event.at.clock ?? '';
    const path = event?.path ?? `devices.${state.key}.parts.${part.key}`;
    findings.push(
      finding(
        'tally.part-unaccounted',
        path,
        { part: partLabel(state, part), why: how, key: part.key, device: state.key },
        count > 1
          ? { remedy: message('answer.partsOut', { device: state.key, key: part.key, count: `${count}` }) }
          : {},
      ),
    );
    add(
      'unaccounted',
      time === '' ? message('end.unrecorded', { how }) : message('end.unrecordedAt', { how, time }),
      count,
      event,
    );
  };

  const apart = part.inside - part.lost;
  const { lostBy, apartBy } = part;
  const by = left.about(state.key, part.key, true);
  const lost = by ? part.lost : notFound(part.lost, lostBy);
  if (lostBy && lost > 0) {
    const time = lostBy.event.at.clock;
    findings.push(
      by
        ? finding('tally.retained', by.path, { what: named(by) })
        : finding('tally.retained-unsaid', lostBy.path, { what: partLabel(state, part), time }),
    );
    add('retained unintended', message('end.lost', { time }), lost, lostBy, by);
  }
  if (apartBy && apart > 0) {
    const how = message(`end.apart.${cameOffBy(apartBy)}`, { device: state.details.called });
    if (line) stays(message('end.apartLeft', { how, time: apartBy.event.at.clock }), apart, apartBy, line);
    else unsaid(apart, apartBy, how);
  }
  if (part.out > 0) add('removed intact', part.went?.how ?? message('end.trimmed'), part.out, part.went?.by);
  const attached = part.count - part.inside - part.out;
  if (attached > 0) {
    if (part.open) {
      const by = openedBy(part.open);
      const device = state.details.called;
      if (line) stays(message(`end.leftWhen.${by}`, { device }), attached, part.open, line);
      else unsaid(attached, part.open, message(`end.notSeen.${by}`, { device }));
    } else if (part.role === 'fragment' && state.inside + state.out > 0) {
      if (line) stays(message('end.brokenLeft'), attached, undefined, line);
      else {
        const open = notFound(attached);
        if (open === 0) return { entries, findings };
        const path = `devices.${state.key}.parts.${part.key}`;
        findings.push(
          finding('tally.fragment-unbroken', path, {
            part: partLabel(state, part),
            time: message('answer.anyTime'),
          }),
        );
        add('unaccounted', message('end.noBreak'), open);
      }
    } else if (part.role === 'inner' && state.inside > 0 && !line)
      unsaid(attached, state.cameBy, message('end.insideWith', { device: state.details.called }));
    else if (line && state.inside > 0)
      stays(message('end.on', { device: state.details.called }), attached, state.cameBy, line);
    else if (whole)
      add(
        whole.state,
        message('end.onWhy', { device: state.details.called, how: whole.why }),
        attached,
        whole.event,
      );
  }
  const lines = [...new Set([line, by])].filter(one => one !== undefined);
  findings.push(...partCounts(state, part, lines, spokenFor));
  return { entries, findings };
}

function cameOffBy({ event: { do: verb } }: TallyEvent) {
  return verb === 'release' || verb === 'cut' || verb === 'fracture' ? verb : 'other';
}

function openedBy({ event }: TallyEvent) {
  return event.do === 'exchange' || event.do === 'retrieve' ? event.do : 'remove';
}
