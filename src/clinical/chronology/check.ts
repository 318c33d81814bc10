import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message, type Param } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Order, order, suspects } from './order.js';
import { isBefore, type Point, pointsOf, type Role } from './points.js';

/** Two times in the wrong order. */
interface Wrong {
  readonly earlier: Point;
  readonly later: Point;
  readonly rule: Order;
}

/**
 * Times that contradict each other. One wrong time gives one finding, however many others it contradicts: the time that
 * explains most contradictions is named first, with the strongest of them, until all are explained.
 * @param now milliseconds since 1970; what was recorded as done cannot be later. Absent: not checked.
 */
export function checkChronology(record: CaseRecord, now?: number): Finding[] {
  const points = pointsOf(record);
  const urgent = record.case.urgency === 'emergency';
  let open = order.flatMap(rule => wrongPairs(points, rule)).filter(pair => !(urgent && comesAsleep(pair)));
  const findings: Finding[] = [];
  while (open.length > 0) {
    const worst = blamed(open);
    const mine = open.filter(pair => touches(pair, worst));
    const [strongest] = mine;
    if (!strongest) break;
    findings.push(told(strongest, worst, mine));
    open = open.filter(pair => !touches(pair, worst));
  }
  return [...findings, ...(now === undefined ? [] : inFuture(points, now))];
}

function wrongPairs(points: readonly Point[], rule: Order): Wrong[] {
  const earlier = points.filter(({ role }) => role === rule.earlier);
  const later = points.filter(({ role }) => rule.later.includes(role));
  return earlier.flatMap(a =>
    later
      .filter(b => isBefore(b, a) && a.path !== b.path && a.link === b.link)
      .map(b => ({ earlier: a, later: b, rule })),
  );
}

/** In an emergency the patient may come to the room asleep. */
const comesAsleep = ({ earlier, later }: Wrong) =>
  earlier.role === 'signIn' && later.role === 'sedationStart';

const touches = ({ earlier, later }: Wrong, path: string) => earlier.path === path || later.path === path;

/** The path whose time explains most of the pairs; where several do, the one that is wrong more often. */
function blamed(pairs: readonly Wrong[]): string {
  const partners = new Map<string, { others: Set<string>; role: Role }>();
  const note = ({ path, role }: Point, other: Point) => {
    const entry = partners.get(path) ?? { others: new Set(), role };
    entry.others.add(other.path);
    // An event that is the first access too is blamed as an event.
    if (suspects.indexOf(role) < suspects.indexOf(entry.role)) entry.role = role;
    partners.set(path, entry);
  };
  for (const { earlier, later } of pairs) {
    note(earlier, later);
    note(later, earlier);
  }
  const ranked = [...partners].sort(
    ([, a], [, b]) => b.others.size - a.others.size || suspects.indexOf(a.role) - suspects.indexOf(b.role),
  );
  return ranked[0]?.[0] ?? '';
}

function told({ earlier, later, rule }: Wrong, path: string, all: readonly Wrong[]): Finding {
  const severity = all.some(one => one.rule.severity === 'error') ? 'error' : 'warning';
  const others = new Set(all.map(one => (one.earlier.path === path ? one.later.path : one.earlier.path)));
  const event = earlier.path === path ? earlier : later;
  if (event.role === 'event' && others.size === 1 && (earlier.role === 'start' || later.role === 'end')) {
    const side = message(earlier.role === 'start' ? 'time.beforeStart' : 'time.afterEnd');
    const limit = (earlier.role === 'start' ? earlier : later).text;
    return finding('record.outside-case', path, { time: event.text, side, limit });
  }
  return finding(
    'record.order-of-times',
    path,
    {
      later: { sentence: named(later) },
      laterTime: later.text,
      earlier: named(earlier),
      earlierTime: earlier.text,
      more: moreThan(others.size - 1),
      other: earlier.path === path ? later.path : earlier.path,
    },
    { severity, basis: rule.basis },
  );
}

function moreThan(others: number): Param {
  if (others === 0) return '';
  return others === 1 ? message('time.more.one') : message('time.more.other', { n: `${others}` });
}

const named = ({ role, of }: Point): Message =>
  of === undefined
    ? message(`time.${role}`)
    : message('time.of', { what: message(`time.${role}`), whose: of });

/** What is recorded as done and has not come yet; the reader's clock may be a little behind. */
function inFuture(points: readonly Point[], now: number): Finding[] {
  const SLACK = 10 * 60_000;
  const today = new Date(now + 24 * 3_600_000).toISOString().slice(0, 10);
  const future = points.filter(({ role, epoch, local }) =>
    ['access', 'last', 'lastIn', 'cause', 'answer', 'through', 'localFirst'].includes(role)
      ? false
      : epoch !== undefined
        ? epoch > now + SLACK
        : local.length >= 10 && local.slice(0, 10) > today,
  );
  const [first] = future;
  if (!first) return [];
  const day = future.find(({ role }) => role === 'caseDate') ?? first;
  return [
    finding('record.in-future', day.path, {
      what: { sentence: named(day) },
      time: day.text,
      more: future.length === 1 ? '' : message('time.future.other', { n: `${future.length - 1}` }),
    }),
  ];
}
