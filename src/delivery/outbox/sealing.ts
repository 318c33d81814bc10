import { createCipheriv, createDecipheriv, createHash, randomBytes } from 'node:crypto';
import { CasetallyError } from '../../findings/errors.js';

/** Seals what the outbox keeps at rest. `about` binds the sealed text to the row and column it stands in. */
export interface Sealing {
  seal(text: string, about: string): string;
  /** @throws CasetallyError 'outbox-key' when the key is not there, 'outbox-unreadable' when the text was changed. */
  open(sealed: string, about: string): string;
  /** Ids of the keys, that which seals first; none where nothing is sealed. */
  readonly keys: readonly string[];
}

/** Seals text of a row, and opens it: a sealing that is bound to one kind of row. */
export interface RowSealing {
  readonly seal: (text: string) => string;
  readonly open: (sealed: string) => string;
}

/** Keeps everything as it is: for tests, and for places whose disk is encrypted already. */
export const unsealed: Sealing = {
  seal: text => text,
  open(text, about) {
    if (keyOfSealed(text) === undefined) return text;
    throw new CasetallyError(
      'outbox-key',
      `What is kept at ${about} is sealed, and no key was given: set CASETALLY_OUTBOX_KEY`,
    );
  },
  keys: [],
};

const PREFIX = 'ct1';

/** The id of the key that a text was sealed with; undefined for one that is not sealed: JSON never begins like that. */
export function keyOfSealed(text: string): string | undefined {
  return /^ct1\.([0-9a-f]{12})\./.exec(text)?.[1];
}

/**
 * AES-256-GCM with a fresh 96-bit nonce for each text. The first key seals; the others only open what was
 * sealed before, so that keys can be changed. A key is 32 bytes in base64; its id is made from its hash.
 *
 * @throws CasetallyError 'settings-invalid' for a key that is none, without quoting it.
 */
export function sealingWith(keys: readonly [string, ...string[]]): Sealing {
  const byId = new Map(keys.map(readKey).map(key => [idOf(key), key]));
  const [first] = keys;
  const current = readKey(first);
  return {
    keys: [...byId.keys()],
    seal(text, about) {
      const nonce = randomBytes(12);
      const cipher = createCipheriv('aes-256-gcm', current, nonce);
      cipher.setAAD(Buffer.from(about));
      const body = Buffer.concat([cipher.update(Buffer.from(text)), cipher.final()]);
      return [PREFIX, idOf(current), b64(nonce), b64(cipher.getAuthTag()), b64(body)].join('.');
    },
    open(sealed, about) {
      const [prefix, id = '', nonce = '', tag = '', body = ''] = sealed.split('.');
      const key = byId.get(id);
      if (prefix !== PREFIX || !key) {
        throw new CasetallyError(
          'outbox-key',
          `What is kept at ${about} was ${prefix === PREFIX ? `sealed with another key (${id.slice(0, 16)})` : 'not sealed'}`,
        );
      }
      try {
        const decipher = createDecipheriv('aes-256-gcm', key, Buffer.from(nonce, 'base64url'), {
          authTagLength: 16,
        });
        decipher.setAAD(Buffer.from(about));
        decipher.setAuthTag(Buffer.from(tag, 'base64url'));
        return Buffer.concat([decipher.update(Buffer.from(body, 'base64url')), decipher.final()]).toString();
      } catch {
        throw new CasetallyError('outbox-unreadable', `What is sealed at ${about} was changed or cut`);
      }
    },
  };
}

function readKey(text: string): Buffer {
  const key = Buffer.from(text, 'base64');
  if (key.length !== 32) {
    throw new CasetallyError(
      'settings-invalid',
      'An outbox key is 32 bytes in base64, as `openssl rand -base64 32` gives',
    );
  }
  return key;
}

function idOf(key: Buffer): string {
  return createHash('sha256').update('casetally outbox key').update(key).digest('hex').slice(0, 12);
}

function b64(bytes: Buffer): string {
  return bytes.toString('base64url');
}
