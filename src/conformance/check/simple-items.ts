import { isObject } from './equal.js';

/** A FHIRPath collection. */
export type Items = readonly unknown[];

const NONE: Items = [];

/** The occurrences of a child element, of a primitive also those that only have extensions. */
export function memberOf(name: string): (owner: unknown) => Items {
  const companion = `_${name}`;
  return owner => {
    if (!isObject(owner)) return NONE;
    const value = owner[name];
    if (value === undefined) {
      const beside = owner[companion];
      return beside === undefined ? NONE : Array.isArray(beside) ? beside : [beside];
    }
    return Array.isArray(value) ? value : [value];
  };
}

/** A choice element in whichever type it has. */
export function choiceOf(name: string): (owner: unknown) => Items {
  return owner => {
    if (!isObject(owner)) return NONE;
    for (const key in owner) {
      const plain = key.charCodeAt(0) === 95 ? key.slice(1) : key;
      if (plain.startsWith(name) && /^[A-Z]/.test(plain.slice(name.length))) return memberOf(plain)(owner);
    }
    return NONE;
  };
}
