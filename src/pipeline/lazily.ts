/**
 * An object whose values are made when they are first asked for, and kept. Reports are for four readers in three forms,
 * and whoever prepares a case mostly wants one of them.
 */
export function lazily<T extends object>(makers: { readonly [K in keyof T]: () => T[K] }): T {
  const made: Partial<T> = {};
  for (const key of Object.keys(makers) as (keyof T)[])
    Object.defineProperty(made, key, {
      enumerable: true,
      configurable: true,
      get: () => {
        const value = makers[key]();
        Object.defineProperty(made, key, { enumerable: true, value });
        return value;
      },
    });
  return made as T;
}
