import type { Param } from '../../findings/message.js';
import { isWordKey } from '../../findings/say.js';

/** An element of a label by its English name; one that no device carries has no other. */
export function elementNamed(name: string): Param {
  const key = `element.${name}`;
  return isWordKey(key) ? { key, params: {} } : name;
}
