/** Case, hyphens and runs of blanks do not tell names apart. */
export const plainName = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[\s-]+/g, ' ')
    .trim();

/** The entry of a table under a name, case aside; undefined when the table has none. */
export function lookUp<T>(table: Readonly<Record<string, T>>, name: string): T | undefined {
  const wanted = plainName(name);
  return Object.entries(table).find(([key]) => plainName(key) === wanted)?.[1];
}

/** The entry of the longest name of a table that stands as whole words in a text: `enoxaparin` in `Enoxaparin sodium`. */
export function lookUpWithin<T>(
  table: Readonly<Record<string, T>>,
  text: string,
): { readonly name: string; readonly entry: T } | undefined {
  const words = ` ${plainName(text)} `;
  const [found] = Object.entries(table)
    .filter(([key]) => words.includes(` ${plainName(key)} `))
    .sort(([a], [b]) => b.length - a.length);
  return found && { name: found[0], entry: found[1] };
}
