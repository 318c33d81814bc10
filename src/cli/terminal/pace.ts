/** How far a long piece of work is. */
export interface Pace {
  /** What is behind, in any unit. */
  readonly at: number;
  readonly total: number;
  /** Cases that were worked on. */
  readonly cases: number;
  readonly setAside: number;
}

/** Rate and time left are of the last minute: what an earlier run had done is passed quickly, and tells nothing of the rest. */
const WINDOW_MS = 60_000;
const BETWEEN_MS = 1000;

/** Says how far a piece of work is: `1200 cases, 2 set aside, 24 %, 14.2 a second, 5 min left`. */
export function paceText(now: () => number): (pace: Pace) => string {
  let seen: { readonly time: number; readonly at: number; readonly cases: number }[] = [
    { time: now(), at: 0, cases: 0 },
  ];
  return ({ at, total, cases, setAside }) => {
    const time = now();
    const newest = seen.at(-1);
    if (!newest || time - newest.time >= BETWEEN_MS) seen.push({ time, at, cases });
    const kept = seen.filter(one => time - one.time <= WINDOW_MS);
    // One from before the window, so that there is always something to count from.
    seen = seen.slice(Math.max(0, seen.length - kept.length - 1));
    const [from] = seen;
    const seconds = from ? (time - from.time) / 1000 : 0;
    const speed = from && seconds >= 1 ? (at - from.at) / seconds : 0;
    const rate = from && seconds >= 1 ? (cases - from.cases) / seconds : undefined;
    return [
      `${cases} ${cases === 1 ? 'case' : 'cases'}`,
      ...(setAside > 0 ? [`${setAside} set aside`] : []),
      `${total === 0 ? 100 : Math.min(100, Math.floor((at * 100) / total))} %`,
      ...(rate === undefined ? [] : [`${rate.toFixed(1)} a second`]),
      ...(speed > 0 ? [`${durationText(Math.max(0, total - at) / speed)} left`] : []),
    ].join(', ');
  };
}

function durationText(seconds: number): string {
  if (seconds < 60) return `${Math.ceil(seconds)} s`;
  if (seconds < 3600) return `${Math.ceil(seconds / 60)} min`;
  const minutes = Math.ceil(seconds / 60);
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
