import { type Finding, finding, messageOf, stops } from '../../findings/finding.js';
import type { CaseEvent, CaseRecord } from '../../record/schema/record.js';

/** A record as it would be if one time were right, or had not been written. */
interface Mended {
  /** Of the time that is put right. */
  readonly path: string;
  readonly record: CaseRecord;
  /** What to say where no other finding is about that time. */
  readonly cause?: (follow: number) => Finding;
}

/**
 * One wrong time gives one finding. Whatever would go if that time were right follows from it, and is marked so: it is
 * shown under its cause. Which time that is comes from the record alone: an event that stands in the list between two
 * others and by its time does not, or a time that contradicts others.
 * @param check every finding of a record
 */
export function withCauses(
  record: CaseRecord,
  findings: readonly Finding[],
  check: (mended: CaseRecord) => readonly Finding[],
): readonly Finding[] {
  if (!findings.some(f => isOfTimes(f) || stops(f))) return findings;
  const moved = best(eventsOutOfPlace(record), findings, check);
  const folded = moved ? fold(findings, moved) : findings;
  return folded.filter(isOfTimes).reduce<readonly Finding[]>((all, { path, follows }) => {
    const without = follows ? undefined : withoutTime(record, path);
    const cause = without && best([without], all, check);
    return cause ? fold(all, cause) : all;
  }, folded);
}

const isOfTimes = ({ code }: Finding) => code === 'record.order-of-times' || code === 'record.outside-case';

interface Found {
  readonly mended: Mended;
  /** What the mended record no longer gives, the finding about the time itself aside. */
  readonly gone: ReadonlySet<Finding>;
}

/** The one time of several whose mending takes most with it, and makes nothing new wrong. */
function best(
  all: readonly Mended[],
  findings: readonly Finding[],
  check: (mended: CaseRecord) => readonly Finding[],
): Found | undefined {
  const before = new Set(findings.map(placeOf));
  const found = all.flatMap((mended): Found[] => {
    const now = check(mended.record);
    const left = new Set(now.map(sameness));
    if (now.some(f => stops(f) && !before.has(placeOf(f)))) return [];
    const gone = findings.filter(f => !f.follows && f.severity !== 'information' && !left.has(sameness(f)));
    const rest = gone.filter(f => !(isOfTimes(f) && f.path === mended.path));
    return rest.length > 0 ? [{ mended, gone: new Set(rest) }] : [];
  });
  return found.sort((a, b) => b.gone.size - a.gone.size)[0];
}

const placeOf = (f: Finding) => `${f.code} ${f.path}`;
const sameness = (f: Finding) => `${placeOf(f)} ${messageOf(f)}`;

function fold(findings: readonly Finding[], { mended, gone }: Found): readonly Finding[] {
  const own = findings.find(f => isOfTimes(f) && f.path === mended.path);
  const cause = own ?? mended.cause?.(gone.size);
  // A time that somebody accepted is right, and what contradicts it has another cause.
  if (!cause || cause.acknowledged) return findings;
  const follows = { code: cause.code, path: cause.path };
  const severity = [cause, ...gone].some(stops) ? 'error' : cause.severity;
  const rest = findings.filter(f => f !== own).map(f => (gone.has(f) ? { ...f, follows } : f));
  return [{ ...cause, severity }, ...rest];
}

/** Every event that alone keeps the list from being in the order of its times, with the time of its neighbour. */
function eventsOutOfPlace(record: CaseRecord): Mended[] {
  const { events = [] } = record;
  if (inOrder(events)) return [];
  return events.flatMap((event, index): Mended[] => {
    if (!inOrder(events.toSpliced(index, 1))) return [];
    const [before, after] = [events[index - 1], events[index + 1]];
    const near = before ?? after;
    if (!near) return [];
    const path = `events[${index}].at`;
    return [
      {
        path,
        record: { ...record, events: events.with(index, { ...event, at: near.at }) },
        cause: follow =>
          finding('record.event-out-of-place', path, {
            event: event.do,
            time: event.at.text,
            from: near.at.text,
            to: (after ?? near).at.text,
            count: `${follow}`,
          }),
      },
    ];
  });
}

const inOrder = (events: readonly CaseEvent[]) =>
  events.every(({ at }, i) => at.epoch >= (events[i - 1]?.at.epoch ?? at.epoch));

/** The record without a time that it can do without. */
function withoutTime(record: CaseRecord, path: string): Mended | undefined {
  const { started, ended, ...head } = record.case;
  if (path === 'case.started')
    return { path, record: { ...record, case: { ...head, ...(ended && { ended }) } } };
  if (path === 'case.ended')
    return { path, record: { ...record, case: { ...head, ...(started && { started }) } } };
  // An event cannot do without one: it gets that of its neighbour.
  const index = Number(/^events\[(\d+)\]\.at$/.exec(path)?.[1]);
  const { events = [] } = record;
  const event = events[index];
  const near = events[index + 1] ?? events[index - 1];
  return (
    event && near && { path, record: { ...record, events: events.with(index, { ...event, at: near.at }) } }
  );
}
