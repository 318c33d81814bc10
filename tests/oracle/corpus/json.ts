/** JSON as parsed; the corpus is edited as data, never through resource types, since mutants break those. */
export type Json = null | boolean | number | string | Json[] | JsonObject;
export interface JsonObject {
  [key: string]: Json;
}
export type Step = string | number;

export function isObject(value: Json | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function textAt(value: Json | undefined, key: string): string | undefined {
  const child = isObject(value) ? value[key] : undefined;
  return typeof child === 'string' ? child : undefined;
}

export function itemsAt(value: Json | undefined, key: string): Json[] {
  const child = isObject(value) ? value[key] : undefined;
  return child === undefined || child === null ? [] : Array.isArray(child) ? child : [child];
}

/** The value at a pointer, or undefined. */
export function at(root: Json, pointer: readonly Step[]): Json | undefined {
  let here: Json | undefined = root;
  for (const step of pointer) {
    if (Array.isArray(here) && typeof step === 'number') here = here[step];
    else if (isObject(here) && typeof step === 'string') here = here[step];
    else return undefined;
  }
  return here;
}

/** Puts `value` at a pointer whose holder exists; `undefined` removes (an array item is spliced out). */
export function put(root: Json, pointer: readonly Step[], value: Json | undefined): void {
  const holder = at(root, pointer.slice(0, -1));
  const last = pointer.at(-1);
  if (Array.isArray(holder) && typeof last === 'number') {
    if (value === undefined) holder.splice(last, 1);
    else holder[last] = value;
  } else if (isObject(holder) && typeof last === 'string') {
    if (value === undefined) delete holder[last];
    else holder[last] = value;
  }
}

export function show(pointer: readonly Step[]): string {
  return pointer
    .map(step => (typeof step === 'number' ? `[${step}]` : `.${step}`))
    .join('')
    .replace(/^\./, '');
}
