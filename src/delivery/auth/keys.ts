import {
  type CryptoKey,
  calculateJwkThumbprint,
  exportJWK,
  generateKeyPair,
  importJWK,
  importPKCS8,
  type JWK,
} from 'jose';
import { CasetallyError } from '../../findings/errors.js';

export type KeyAlgorithm = 'RS384' | 'ES384';

/** A private key ready for signing, and the id that it is known by. */
export interface SigningKey {
  readonly key: CryptoKey;
  readonly keyId: string;
}

/**
 * Reads a private key from a JWK or a PKCS#8 PEM. The id is the one given, else the JWK's, else the thumbprint
 * of the public key (RFC 7638).
 *
 * @throws CasetallyError 'settings-invalid' without any part of the key in it.
 */
export async function readSigningKey(
  text: string,
  algorithm: KeyAlgorithm,
  keyId?: string,
): Promise<SigningKey> {
  try {
    const isPem = text.trimStart().startsWith('-----BEGIN');
    const jwk: JWK = isPem
      ? await exportJWK(await importPKCS8(text, algorithm, { extractable: true }))
      : JSON.parse(text);
    const key = await importJWK(jwk, algorithm);
    if (key instanceof Uint8Array || key.type !== 'private') throw new TypeError('not a private key');
    return { key, keyId: keyId ?? jwk.kid ?? (await calculateJwkThumbprint(jwk)) };
  } catch {
    // The cause is left out: its message can quote the key.
    throw new CasetallyError(
      'settings-invalid',
      `The key is not a private ${algorithm} key as JWK or PKCS#8 PEM`,
    );
  }
}

/** A new key pair: the private key as JWK text, to be kept secret, and the public JWKS to be published. */
export interface NewKeys {
  readonly keyId: string;
  readonly privateJwk: string;
  readonly jwks: { readonly keys: readonly JWK[] };
}

/**
 * Makes a key pair. Its id is its thumbprint, so no two keys share one; `others` are public keys that stay
 * published beside it while servers may still hold the old one.
 */
export async function makeKeys(algorithm: KeyAlgorithm, others: readonly JWK[] = []): Promise<NewKeys> {
  const options = algorithm === 'RS384' ? { extractable: true, modulusLength: 3072 } : { extractable: true };
  const { privateKey, publicKey } = await generateKeyPair(algorithm, options);
  const shown = await exportJWK(publicKey);
  const keyId = await calculateJwkThumbprint(shown);
  const about = { kid: keyId, alg: algorithm, use: 'sig' };
  const privateJwk = JSON.stringify(
    { ...(await exportJWK(privateKey)), ...about, key_ops: ['sign'] },
    null,
    2,
  );
  const keys = [
    { ...shown, ...about, key_ops: ['verify'] },
    ...others.map(publicPart).filter(k => k.kid !== keyId),
  ];
  return { keyId, privateJwk, jwks: { keys } };
}

const PUBLIC_MEMBERS: ReadonlySet<string> = new Set([
  'kty',
  'crv',
  'x',
  'y',
  'n',
  'e',
  'kid',
  'alg',
  'use',
  'key_ops',
]);

/** Built up from the public members, so that no private one can slip through. */
function publicPart(jwk: JWK): JWK {
  return Object.fromEntries(Object.entries(jwk).filter(([name]) => PUBLIC_MEMBERS.has(name)));
}
