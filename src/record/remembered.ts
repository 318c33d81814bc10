/** Texts that a function remembers at most unless told otherwise, and the longest that it remembers: they are people's own. */
const MOST = 1_000;
const LONGEST = 1_000;

/**
 * A pure function of a text that remembers what it gave: many rules ask the same of the few texts of a record. What it
 * gives is shared, so it must be read only.
 */
export function remembered<Result>(read: (text: string) => Result, most = MOST): (text: string) => Result {
  const known = new Map<string, { readonly result: Result }>();
  return text => {
    const before = known.get(text);
    if (before) return before.result;
    const result = read(text);
    if (text.length <= LONGEST) {
      if (known.size >= most) known.clear();
      known.set(text, { result });
    }
    return result;
  };
}

/** The same for what hangs on one whole object, for as long as that lives: a record, a tally. It must not change. */
export function rememberedOf<About extends object, Result>(
  read: (about: About) => Result,
): (about: About) => Result {
  const known = new WeakMap<About, { readonly result: Result }>();
  return about => {
    const before = known.get(about);
    if (before) return before.result;
    const result = read(about);
    known.set(about, { result });
    return result;
  };
}
