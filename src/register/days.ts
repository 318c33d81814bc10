/** Whole days from one day to another; undefined where either is not known to the day. */
export function daysBetween(from: string | undefined, to: string | undefined): number | undefined {
  if (from?.length !== 10 || to?.length !== 10) return undefined;
  return (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY_MS;
}

const DAY_MS = 86_400_000;
