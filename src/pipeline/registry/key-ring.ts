import { createHmac } from 'node:crypto';
import { CasetallyError } from '../../findings/errors.js';
import type { PseudonymKey, RegistryOptions } from '../../registry/options.js';
import type { Submissions } from '../../registry/store/submissions.js';

/** What tells secrets apart without giving any of them away. */
export const fingerprint = ({ secret }: PseudonymKey): string =>
  createHmac('sha256', secret).update('fingerprint of a registry key', 'utf8').digest('hex').slice(0, 16);

/**
 * Holds the secret of a registry against those that were used before, and keeps it at its first use.
 *
 * @throws CasetallyError 'settings-invalid' for another secret under a name that was used already, and for a new one that
 * ends in a line break.
 */
export async function heldToRing(
  registry: string,
  key: PseudonymKey,
  { keyEndsInNewline }: Pick<RegistryOptions, 'keyEndsInNewline'>,
  submissions: Pick<Submissions, 'keys' | 'setKey'>,
  now: number,
): Promise<void> {
  const print = fingerprint(key);
  const known = (await submissions.keys(registry)).find(({ keyId }) => keyId === key.id);
  if (known) {
    if (known.fingerprint === print) return;
    throw new CasetallyError(
      'settings-invalid',
      `the secret of registry '${registry}' is another than the one that was used as '${key.id}' (fingerprint ${print}, not ${known.fingerprint}): everybody would get a second pseudonym. Bring the former secret back; or, to change it, give the new one a keyId of its own and list the former under formerKeys.`,
    );
  }
  if (key.secret.at(-1) === 0x0a && keyEndsInNewline !== true)
    throw new CasetallyError(
      'settings-invalid',
      `the new secret '${key.id}' of registry '${registry}' ends in a line break. Write the file without one; or set keyEndsInNewline: true where pseudonyms were already made with it.`,
    );
  await submissions.setKey(registry, { keyId: key.id, fingerprint: print, since: now });
}
