import { CasetallyError } from '../../findings/errors.js';
import type { Sealing } from './sealing.js';
import { CONTENT_SINCE, type Dialect, itemTable, SCHEMA_VERSION } from './sql-schema.js';

/** How many items are sealed with a key; null for those that are not sealed. */
export interface SealedBy {
  readonly key: string | null;
  readonly items: number;
}

/** Counts the items of each key by the first letters of what is sealed. @param version of the tables */
export const sealedByIn = ({ prefix }: Dialect, version = SCHEMA_VERSION): string => `
SELECT CASE WHEN substr(payload, 1, 4) = 'ct1.' THEN substr(payload, 5, 12) END AS key, count(*) AS items
FROM ${prefix}${version < CONTENT_SINCE ? itemTable(version) : 'content'} GROUP BY 1 ORDER BY 1`;

/**
 * Refuses a store whose items the keys given do not fit, before anything in it is changed: an item must not be parked,
 * nor a second one stored beside it, because somebody forgot a setting.
 *
 * @param forRekey true lets items pass that are not sealed yet.
 * @throws CasetallyError 'outbox-key'.
 */
export function checkKeys(
  held: readonly SealedBy[],
  { keys }: Sealing,
  place: string,
  forRekey = false,
): void {
  const refuse = (message: string): never => {
    throw new CasetallyError('outbox-key', `${message} Nothing was changed.`);
  };
  const foreign = held.find(({ key }) => key !== null && !keys.includes(key));
  if (foreign && keys.length === 0)
    refuse(
      `The outbox in ${place} is sealed, and no key was given (${counted(foreign.items)} with the key ${foreign.key}): set CASETALLY_OUTBOX_KEY to that key.`,
    );
  if (foreign)
    refuse(
      `The outbox in ${place} has ${counted(foreign.items)} sealed with the key ${foreign.key}, which is not among those given (${keys.join(', ')}): add it to CASETALLY_OUTBOX_KEY, after the present one and a comma.`,
    );
  const plain = held.find(({ key }) => key === null);
  if (plain && keys.length > 0 && !forRekey)
    refuse(
      `The outbox in ${place} has ${counted(plain.items)} ${plain.items === 1 ? 'that is' : 'that are'} not sealed, and a key was given: seal what is there with 'casetally outbox rekey', or leave CASETALLY_OUTBOX_KEY out.`,
    );
}

function counted(items: number): string {
  return items === 1 ? '1 item' : `${items} items`;
}
