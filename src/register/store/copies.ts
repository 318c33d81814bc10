import { copyStore, type StoreKind } from '../../delivery/outbox/copies.js';
import { REGISTER_VERSION } from './schema.js';

const REGISTER: StoreKind = {
  name: 'a register',
  version: REGISTER_VERSION,
  table: () => 'case_version',
  ifDamaged: 'Take an older backup; what was accepted since is taken in from the outbox.',
};

/**
 * Copies the register in a file whole, as of one moment, while others read and write it, to a new file: a backup, or a
 * register made of one. What is sealed stays sealed; no key is needed. @returns how many versions of cases it has.
 * @throws CasetallyError where there is a file already, or the register is damaged.
 */
export const copyRegister = (from: string, to: string): Promise<number> =>
  copyStore(from, to, REGISTER, async () => undefined);
