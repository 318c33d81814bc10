import { daysBetween } from './days.js';
import { type DeviceFact, describedDevice } from './facts.js';
import type { OpenUse, Sighting } from './link.js';
import type { FoldedCase } from './order.js';
import type { Evidence, Use, UseEvent, UsePlan, UseState } from './use.js';

/** A use while its history is put together. */
export interface Draft extends OpenUse {
  readonly fact: DeviceFact;
  readonly names: Set<string>;
  readonly cases: Set<string>;
  placed: string | undefined;
  insertionHeld: boolean;
  inside: number;
  state: UseState;
  ended: string | undefined;
  events: UseEvent[];
  plans: UsePlan[];
}

/** True for what may be in the patient. */
export const isOpen = ({ state, inside }: Draft): boolean =>
  (state === 'inside' || state === 'unknown') && inside > 0;

export const nameOf = (name: string, { device, part }: Pick<DeviceFact, 'device' | 'part'>) =>
  part === undefined ? `${name}/${device}` : `${name}/${device}/${part}`;

export function draftOf({ name, facts }: FoldedCase, fact: DeviceFact, id: string): Draft {
  return {
    ...fact,
    fact,
    id,
    case: name,
    names: new Set([id]),
    cases: new Set([name]),
    placed: undefined,
    insertionHeld: true,
    inside: 0,
    state: facts.status === 'withdrawn' ? 'withdrawn' : 'inside',
    ended: undefined,
    events: [],
    plans: [],
  };
}

const eventOf = ({ name, facts }: FoldedCase, fact: DeviceFact) => ({
  case: name,
  version: facts.version,
  as: nameOf(name, fact),
});
const some = (count: number, all: number) => (all === 1 ? {} : { count });

export function placedBy(one: FoldedCase, fact: DeviceFact, id: string): Draft {
  const use = draftOf(one, fact, id);
  const { date, status } = one.facts;
  use.placed = fact.inOn ?? date;
  if (status === 'withdrawn') {
    use.events.push({ kind: 'withdrawn', date: one.facts.changed?.date ?? date, ...eventOf(one, fact) });
    return use;
  }
  use.events.push({
    kind: fact.part === undefined ? 'inserted' : 'part left',
    date: use.placed,
    ...eventOf(one, fact),
    ...some(fact.count, fact.count),
  });
  settle(one, use, fact, fact.count);
  return use;
}

/** A use that begins in the register with a case that found it there already. */
export function firstSeenIn(one: FoldedCase, fact: DeviceFact, id: string, { earlier }: Sighting): Draft {
  const use = draftOf(one, fact, id);
  use.insertionHeld = false;
  use.placed = fact.carried?.date;
  if (earlier !== undefined) use.cases.add(earlier);
  if (one.facts.status === 'withdrawn') {
    use.events.push({
      kind: 'withdrawn',
      date: one.facts.changed?.date ?? one.facts.date,
      ...eventOf(one, fact),
    });
    return use;
  }
  use.events.push({
    kind: 'seen',
    date: one.facts.date,
    ...eventOf(one, fact),
    ...some(fact.count, fact.count),
  });
  settle(one, use, fact, fact.count);
  return use;
}

export function seenBy(
  one: FoldedCase,
  fact: DeviceFact,
  name: string,
  use: Draft,
  evidence: Evidence,
  withdrawn: boolean,
): void {
  const { date } = one.facts;
  use.names.add(name);
  use.cases.add(one.name);
  if (withdrawn) {
    use.events.push({
      kind: 'withdrawn',
      date: one.facts.changed?.date ?? date,
      ...eventOf(one, fact),
      evidence,
    });
    return;
  }
  // A person may have said that it is one which is out already.
  const closed = use.inside === 0;
  if (closed || fact.inside > 0 || fact.out === 0)
    use.events.push({ kind: fact.moved ? 'repositioned' : 'seen', date, ...eventOf(one, fact), evidence });
  if (!closed) settle(one, use, fact, use.inside, evidence);
}

/** What a case leaves of a use: how many came out, and what is to be done about the rest. */
function settle(one: FoldedCase, use: Draft, fact: DeviceFact, before: number, evidence?: Evidence): void {
  const { date } = one.facts;
  const out = Math.min(fact.out, before);
  if (out > 0)
    use.events.push({
      kind: 'removed',
      date: fact.outOn ?? date,
      ...eventOf(one, fact),
      ...some(out, before),
      ...(evidence && { evidence }),
    });
  use.inside = before - out;
  if (use.inside === 0) {
    use.state = 'removed';
    use.ended = fact.outOn ?? date;
    closePlans(use, fact.replacedBy === undefined ? 'removed' : 'exchanged', one.name, use.ended);
    return;
  }
  use.state = fact.open >= use.inside ? 'unknown' : 'inside';
  if (fact.plans.length > 0) closePlans(use, 'planned anew', one.name, date);
  use.plans.push(...fact.plans.map(plan => ({ ...plan, case: one.name })));
}

export function closePlans(
  use: Draft,
  how: NonNullable<UsePlan['closed']>['how'],
  by: string,
  date: string | undefined,
): void {
  const closed = { how, case: by, ...(date !== undefined && { date }) };
  use.plans = use.plans.map(plan => (plan.closed ? plan : { ...plan, closed }));
}

/** The use that a draft became. */
export function done(use: Draft, person: string): Use {
  const { fact, id, state, placed, insertionHeld, ended, inside, events, plans } = use;
  const open = state === 'inside' ? plans.filter(plan => !plan.closed) : [];
  const days = (which: 'due' | 'latest') => open.flatMap(plan => plan[which] ?? []).sort();
  const [due] = days('due');
  const [latest] = days('latest');
  const dwellDays = daysBetween(placed, ended);
  return {
    ...describedDevice(fact),
    id,
    person,
    state,
    ...(placed !== undefined && { placed }),
    insertionHeld,
    ...(ended !== undefined && { ended }),
    ...(dwellDays !== undefined && { dwellDays }),
    count: fact.count,
    inside: state === 'withdrawn' ? 0 : inside,
    ...(due !== undefined && { due }),
    ...(latest !== undefined && { latest }),
    events,
    plans,
  };
}
