import type { CaseFacts, DeviceFact, PlanFact } from '../../src/register/facts.js';

export const system = 'https://ids.harbour.example';

/** Mulberry32: the same numbers in each run. */
export function numbers(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const DAYS = 5_500;
const DAY_MS = 86_400_000;
export const dayOf = (n: number) => new Date(Date.UTC(2010, 0, 1) + n * DAY_MS).toISOString().slice(0, 10);
/** The day on which the register is asked. */
export const TODAY = dayOf(DAYS);

export const IDENTIFIERS = 2_000;
export const LOTS = 500;
export const identifierOf = (n: number) => String(9_506_000_000_000 + n).padStart(14, '0');
export const lotOf = (identifier: number, n: number) => `${identifier}L${n}`;

/** What is placed, how often, how many days it mostly stays, and when it should be out; common practice, no source. */
const KINDS = [
  { kind: 'coil', family: 'embolic', share: 0.3 },
  { kind: 'stent', family: 'stent', share: 0.25 },
  { kind: 'drainage catheter', family: 'drain', share: 0.25, stays: 40, due: 84, latest: 98 },
  { kind: 'port', family: 'access', share: 0.15, stays: 300, due: 700, latest: 760 },
  { kind: 'caval filter', family: 'filter', share: 0.05, stays: 120, due: 90, latest: 180 },
];

/** One device as it was made up: what the register must find, known without it. */
export interface Truth {
  readonly person: string;
  readonly use: string;
  readonly family: string;
  readonly di?: string;
  readonly lot?: string;
  readonly serial?: string;
  readonly placed: string;
  readonly ended?: string;
  readonly due?: string;
  readonly latest?: string;
}

export interface Person {
  readonly cases: readonly CaseFacts[];
  readonly truth: readonly Truth[];
}

/**
 * A person: one case that places some devices, and one for each that came out. A few of what should have come out never
 * does, and of a few devices no identifier or lot was recorded.
 */
export function personOf(n: number): Person {
  const random = numbers(n);
  const pick = (below: number) => Math.floor(random() * below);
  const person = { system: `${system}/mrn`, value: `P${n}` };
  const caseOf = (value: string, date: string, devices: readonly DeviceFact[]): CaseFacts => ({
    case: { system: `${system}/cases`, value },
    version: 1,
    status: 'final',
    digest: value,
    date,
    person,
    numbers: [person],
    devices,
  });
  const first = pick(DAYS);
  const made = Array.from({ length: 2 + pick(5) }, (_, at) => deviceOf(n, at, first, random));
  const removals = made.flatMap(({ fact, truth }, at) => {
    if (truth.ended === undefined) return [];
    const again: DeviceFact = {
      ...fact,
      device: 'old',
      plans: [],
      inside: 0,
      out: 1,
      outOn: truth.ended,
      // What has an identifier and a serial number is known again by them.
      carried: fact.serial === undefined || fact.di === undefined ? { use: truth.use } : {},
    };
    return [caseOf(`R${n}-${at}`, truth.ended, [again])];
  });
  return {
    cases: [
      caseOf(
        `A${n}`,
        dayOf(first),
        made.map(({ fact }) => fact),
      ),
      ...removals,
    ],
    truth: made.map(({ truth }) => truth),
  };
}

function deviceOf(n: number, at: number, placed: number, random: () => number) {
  const pick = (below: number) => Math.floor(random() * below);
  let share = random();
  const { kind, family, stays, due, latest } =
    KINDS.find(one => {
      share -= one.share;
      return share < 0;
    }) ?? KINDS[0]!;
  const identifier = pick(IDENTIFIERS);
  const known = {
    ...(random() > 0.03 && { di: identifierOf(identifier) }),
    ...(random() > 0.005 && { lot: lotOf(identifier, pick(LOTS)) }),
    ...(random() < 0.3 && { serial: `S${n}-${at}` }),
  };
  const out =
    stays === undefined || random() < 0.01
      ? undefined
      : placed + 1 + Math.round(-Math.log(1 - random()) * stays);
  const ended = out !== undefined && out < DAYS ? dayOf(out) : undefined;
  const days = due === undefined ? {} : { due: dayOf(placed + due), latest: dayOf(placed + latest) };
  const plans: PlanFact[] = due === undefined ? [] : [{ key: `p${at}`, what: 'Remove', by: 'ward', ...days }];
  const fact: DeviceFact = {
    device: `d${at}`,
    name: kind,
    kind,
    family,
    ...known,
    retrievable: family === 'filter',
    count: 1,
    inside: 1,
    out: 0,
    open: 0,
    inOn: dayOf(placed),
    plans,
  };
  const truth: Truth = {
    person: `P${n}`,
    use: `A${n}/d${at}`,
    family,
    ...known,
    placed: dayOf(placed),
    ...(ended !== undefined && { ended }),
    ...days,
  };
  return { fact, truth };
}
