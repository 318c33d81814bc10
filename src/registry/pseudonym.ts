import { createHmac } from 'node:crypto';
import type { PseudonymKey } from './options.js';

/**
 * A stable stand-in for an identifier: HMAC-SHA-256 under the registry's own secret, cut to 128 bits.
 * The key id in front keeps old pseudonyms apart from new ones after a change of secret.
 * @param purpose keeps pseudonyms of different things from colliding
 */
export function pseudonym(key: PseudonymKey, purpose: PseudonymPurpose, value: string): string {
  const mac = createHmac('sha256', key.secret).update(`${purpose}\u0000${value}`, 'utf8').digest('hex');
  return `${key.id}.${mac.slice(0, 32)}`;
}

/** What a pseudonym stands for; `case` is that of an entry too. */
export type PseudonymPurpose = 'patient' | 'case' | 'serial' | 'unit' | 'operator';
