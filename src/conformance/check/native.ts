import type { Json } from '../../json/parse.js';
import { isObject } from './equal.js';
import type { Scope } from './place.js';

/** Whether the rule holds; a text says why that cannot be told, undefined leaves it to the library. */
export type Native = (value: Json, scope: Scope) => boolean | string | undefined;

/** True when an element is there, with a value or only with extensions. */
export function has(value: unknown, name: string): boolean {
  if (!isObject(value)) return false;
  const member = value[name];
  if (member !== undefined) return !Array.isArray(member) || member.length > 0;
  return value[`_${name}`] !== undefined;
}
