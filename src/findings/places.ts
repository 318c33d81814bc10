/**
 * Fills the `{name}` places of a phrase, all at once: what goes in is not searched for places again. One that nothing is
 * given for stays as it is.
 */
export function fillPlaces<P>(
  phrase: string,
  params: Readonly<Record<string, P>>,
  print: (value: NonNullable<P>) => string,
): string {
  return phrase.replace(/\{(\w+)\}/g, (whole, name: string) => {
    const value = Object.hasOwn(params, name) ? params[name] : undefined;
    return value === undefined || value === null ? whole : print(value);
  });
}
