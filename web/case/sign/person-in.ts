import type { Person } from './team-choices.js';

/** Parts of a name without capitals, accents, dots and titles that some systems write. */
const parts = (name: string): readonly string[] =>
  name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(part => part !== '' && !TITLES.has(part))
    .sort();
const TITLES: ReadonlySet<string> = new Set(['dr', 'prof', 'mr', 'mrs', 'ms', 'med']);

/** Key of whoever in the team has the name of a person; nobody where that is not one alone. The service decides. */
export function personIn(team: readonly Person[], name: string | undefined): string | undefined {
  if (name === undefined) return undefined;
  const wanted = parts(name).join(' ');
  const same = team.filter(one => wanted !== '' && parts(one.name).join(' ') === wanted);
  return same.length === 1 ? same[0]?.key : undefined;
}
