import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { EndState, TallyEntry, TallyEvent } from '../types.js';
import { closeAgainst } from './close-against.js';
import { closeParts } from './close-parts.js';
import { type Closed, notFound, row } from './close-rows.js';
import { closeUnused, unusedButUsed } from './close-unused.js';
import { conditionMissing, type LeftLine, type LeftLines, leftCount, leftState, named } from './left.js';
import { removalOf } from './remedies.js';
import { type DeviceState, type Gone, missingPieces } from './state.js';

/** The end states of one device and its parts. */
export function closeDevice(record: CaseRecord, state: DeviceState, left: LeftLines): Closed {
  const findings: Finding[] = [];
  const rows: TallyEntry[] = [];
  const inside = closeInside(record, state, left);
  const unused = closeUnused(record, state, left);
  findings.push(...inside.findings, ...unused.findings);
  const whole = inside.entries[0] ?? unused.entries[0];
  const parts = closeParts(record, state, left, whole);
  const pieces = missingPieces(state);
  rows.push(...inside.entries);
  if (state.went && state.out > 0) rows.push(...closeOut(state, state.went, pieces, left, findings));
  const { rest } = left.missing.take(state.key, undefined, pieces);
  if (state.broken && rest > 0) findings.push(piecesFinding(state, state.broken, rest));
  rows.push(...unused.entries);
  findings.push(...parts.findings, ...carriedFindings(state), ...unusedButUsed(state));
  return { entries: [...rows, ...parts.entries], findings };
}

const leftOf = ({ index, entry }: LeftLine) => ({ left: { index, entry } });

function closeInside(record: CaseRecord, state: DeviceState, left: LeftLines): Closed {
  const entries: TallyEntry[] = [];
  const findings: Finding[] = [];
  const { lostBy, cameBy } = state;
  const lostLine = left.about(state.key, undefined, true);
  const sought = lostLine ? { entries: [], rest: state.lost } : notFound(state, left, state.lost, lostBy);
  entries.push(...sought.entries);
  if (lostBy && sought.rest > 0) {
    const time = lostBy.event.at.clock;
    findings.push(
      lostLine
        ? finding('tally.retained', lostLine.path, { what: named(lostLine) })
        : finding('tally.retained-unsaid', lostBy.path, { what: state.label, time }),
    );
    entries.push({
      ...row(state, 'retained unintended', message('end.lost', { time }), sought.rest, lostBy),
      ...siteOf(state, lostLine),
      ...(lostLine && leftOf(lostLine)),
    });
  }
  const line = left.about(state.key, undefined, false);
  const since = state.details.entry.carried?.date;
  const came = state.inserted
    ? message('end.inserted', { time: state.inserted.clock })
    : since
      ? message('end.carriedOn', { date: { when: since } })
      : message('end.carried');
  const against = closeAgainst(state, lostLine, line);
  findings.push(...against.findings);
  if (lostLine && against.count > 0) {
    if (state.lost === 0) findings.push(finding('tally.retained', lostLine.path, { what: named(lostLine) }));
    const why = message('end.unintended', { came });
    entries.push({
      ...row(state, 'retained unintended', why, against.count, cameBy),
      ...siteOf(state, lostLine),
      ...leftOf(lostLine),
    });
  }
  const inside = state.inside - state.lost - against.count;
  if (inside <= 0) return { entries, findings };
  if (line && !(state.lost > 0 && line.entry.purpose === 'unintended')) {
    const judged = leftState(line, state);
    findings.push(...judged.findings);
    if (judged.state === 'in situ temporary' && conditionMissing(record, line))
      findings.push(finding('tally.no-condition', line.path, { what: state.label }));
    const more = Math.max(0, inside - (line.entry.count ?? inside));
    const open = notFound(state, left, more, cameBy);
    entries.push(...open.entries);
    const rest = inside - more + open.rest;
    const { count, findings: counted } = leftCount(line, state, rest);
    if (against.findings.length === 0) findings.push(...counted);
    const at = { ...siteOf(state, line), ...leftOf(line) };
    entries.push({
      ...row(state, judged.state, message(purposeOf(judged.state), { came }), count, cameBy),
      ...at,
    });
    if (count < rest)
      entries.push(row(state, 'unaccounted', message('end.leftFewer', { came }), rest - count, cameBy));
    return { entries, findings };
  }
  const { entries: gone, rest } = notFound(state, left, inside, cameBy);
  entries.push(...gone);
  if (rest === 0) return { entries, findings };
  if (!cameBy) {
    // A case that was not done has changed nothing about it.
    if (record.case.status !== 'not done')
      findings.push(
        finding('tally.carried-unsaid', `devices.${state.key}`, {
          device: state.label,
          key: state.key,
          removal: removalOf(state),
        }),
      );
    const end = state.details.implant ? 'in situ intended' : 'in situ temporary';
    entries.push({
      ...row(state, end, message('end.noRemoval', { came }), rest),
      ...siteOf(state),
    });
    return { entries, findings };
  }
  const time = cameBy.event.at.clock;
  findings.push(
    finding(
      'tally.unaccounted',
      cameBy.path,
      { device: countWords(rest, state), time, key: state.key, removal: removalOf(state) },
      state.details.implant
        ? {
            remedy: message('answer.implantStays', { key: state.key, removal: removalOf(state) }),
          }
        : {},
    ),
  );
  const because = message('end.notLeft', { came });
  entries.push({ ...row(state, 'unaccounted', because, rest, cameBy), ...siteOf(state) });
  return { entries, findings };
}

function purposeOf(end: EndState) {
  if (end === 'in situ intended') return 'end.intended';
  return end === 'in situ temporary' ? 'end.temporary' : 'end.unintended';
}

function siteOf(state: DeviceState, line?: LeftLine): Pick<TallyEntry, 'site'> {
  const site = line?.entry.site ?? state.site;
  return { ...(site && { site }) };
}

const countWords = (number: number, state: DeviceState) =>
  state.total === 1
    ? state.label
    : message('name.some', { n: `${number}`, total: `${state.total}`, device: state.label });

function closeOut(
  state: DeviceState,
  { by, how }: Gone,
  pieces: number,
  left: LeftLines,
  findings: Finding[],
): TallyEntry[] {
  const removed = by.event.at;
  if (state.doubt) {
    const time = state.doubt.event.at.clock;
    const why = message('end.insertedAgain', { time });
    return [{ ...row(state, 'unaccounted', why, state.out, state.doubt), removed }];
  }
  const parts = [...state.parts.values()];
  const explained = parts.some(part => part.inside > 0 || part.open || (part.out > 0 && !part.cameWith));
  const missing = state.condition === 'part missing' && !explained && pieces === 0;
  const path = `${by.path}.state`;
  const time = removed.clock;
  if (missing && left.missing.take(state.key, undefined, 1).rest > 0)
    findings.push(finding('tally.missing-part-unsaid', path, { device: state.label, time }));
  if (state.condition === 'damaged')
    findings.push(finding('tally.damaged', path, { device: state.label, time }));
  // Others alike are still in, and this one was looked at: it is one of those that is broken.
  if (state.inside > 0 && state.condition === 'intact')
    return [{ ...row(state, 'removed intact', how, state.out, by), removed }];
  const away = parts.some(part => (state.inside > 0 ? part.inside > 0 || part.open : part.out < part.count));
  const incomplete = missing || pieces > 0 || away;
  const end = endOut(state, incomplete);
  const why = state.broken && !incomplete ? message('end.allPieces', { how }) : how;
  return [{ ...row(state, end, why, state.out, by), removed }];
}

/** What was cut or broken inside came out whole only as pieces; what lost one piece and came out is not in pieces. */
function endOut(state: DeviceState, incomplete: boolean): EndState {
  const pieces = [...state.parts.values()]
    .filter(part => part.role === 'fragment' || part.role === 'attached')
    .reduce((sum, part) => sum + (part.cameWith ? 0 : part.out), state.piecesOut);
  if (state.broken && pieces > 1) return `removed in pieces, ${incomplete ? 'incomplete' : 'complete'}`;
  if (incomplete) return 'removed with a part missing';
  return state.broken ? 'removed in pieces, complete' : 'removed intact';
}

function piecesFinding(state: DeviceState, broken: TallyEvent, pieces: number): Finding {
  return finding('tally.pieces', broken.path, {
    device: state.label,
    time: broken.event.at.clock,
    pieces: `${state.pieces}`,
    missing: `${pieces}`,
  });
}

function carriedFindings(state: DeviceState): Finding[] {
  const { carried } = state.details.entry;
  if (!carried || carried.case) return [];
  const known = carried.date ?? carried.note;
  const path = `devices.${state.key}.carried`;
  return [
    finding(
      'tally.carried-case',
      path,
      { device: state.label },
      { severity: known ? 'information' : 'warning' },
    ),
  ];
}
