import { createPrivateKey, createPublicKey, generateKeyPairSync, verify } from 'node:crypto';
import type { Bundle, Provenance } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { hasErrors } from '../../src/conformance/result.js';
import { makeKeys } from '../../src/delivery/auth/keys.js';
import { readSiteKey, signCase, signText, verifyBytes } from '../../src/pipeline/signing.js';
import { firstText, preparedVersion, secondText, site } from '../support/corrected.js';
import { testTools } from '../support/examples.js';

const bytes = (text: string) => Buffer.from(text, 'utf8');

function ed25519() {
  const { privateKey, publicKey } = generateKeyPairSync('ed25519');
  return {
    pem: privateKey.export({ format: 'pem', type: 'pkcs8' }).toString(),
    jwks: { keys: [publicKey.export({ format: 'jwk' })] },
    publicKey,
  };
}

describe('a detached signature', () => {
  const made = ed25519();

  it.each([
    ['Ed25519 as PEM', async () => ({ text: made.pem, jwks: made.jwks as unknown })],
    [
      'P-384 as JWK',
      async () => {
        const { privateJwk, jwks } = await makeKeys('ES384');
        return { text: privateJwk, jwks: jwks as unknown };
      },
    ],
  ])('holds for the bytes that were signed and for no others: %s', async (_, keys) => {
    const { text, jwks } = await keys();
    const jws = await signText('{"a":1}', await readSiteKey(text));
    expect(jws).toMatch(/^[\w-]+\.\.[\w-]+$/);
    expect(await verifyBytes(bytes('{"a":1}'), jws, jwks)).toMatchObject({ valid: true });
    expect(await verifyBytes(bytes('{"a":2}'), jws, jwks)).toMatchObject({ valid: false });
    expect(await verifyBytes(bytes('{"a":1}'), jws, ed25519().jwks)).toMatchObject({ valid: false });
    expect(await verifyBytes(bytes('{"a":1}'), `${jws.slice(0, -4)}AAAA`, jwks)).toMatchObject({
      valid: false,
    });
    expect(await verifyBytes(bytes('{"a":1}'), jws.replace('..', '.e30.'), jwks)).toMatchObject({
      valid: false,
    });
    expect(await verifyBytes(bytes('{"a":1}'), jws, undefined)).toMatchObject({ valid: false });
  });

  // RFC 7515, section 5.1 and appendix F: the signing input is header, point, payload in base64url. Node's own crypto checks it.
  it('is what RFC 7515 says it is', async () => {
    const jws = await signText('{"a":1}', await readSiteKey(made.pem));
    const [header = '', , signature = ''] = jws.split('.');
    const input = `${header}.${bytes('{"a":1}').toString('base64url')}`;
    const key = createPublicKey(createPrivateKey(made.pem));
    expect(verify(null, bytes(input), key, Buffer.from(signature, 'base64url'))).toBe(true);
  });

  it('refuses a header that names another algorithm', async () => {
    const header = Buffer.from('{"alg":"none"}').toString('base64url');
    expect(await verifyBytes(bytes('x'), `${header}..`, made.jwks)).toMatchObject({ valid: false });
  });

  it.each(['', '{}', 'not a key', JSON.stringify(made.jwks.keys[0])])(
    'does not take %j for a private key, and does not repeat it',
    async text => {
      await expect(readSiteKey(text)).rejects.toThrow(/^The signing key is no private P-384 or Ed25519 key/);
    },
  );
});

describe('a signed case', () => {
  it('tells of the signature in its Provenance, leaves the document as it was, and is valid', async () => {
    const { pem, jwks } = ed25519();
    const prepared = preparedVersion(secondText, firstText);
    const key = await readSiteKey(pem);
    const signed = await signCase(prepared, site, key);
    expect(signed.document).toBe(prepared.document);
    expect(await verifyBytes(bytes(signed.document), signed.jws, jwks)).toMatchObject({ valid: true });
    const bundle = JSON.parse(signed.submission) as Bundle;
    const account = bundle.entry
      ?.map(entry => entry.resource)
      .find((r): r is Provenance => r?.resourceType === 'Provenance');
    expect(account?.signature).toHaveLength(1);
    const data = Buffer.from(account?.signature?.[0]?.data ?? '', 'base64').toString('utf8');
    expect(data).toBe(signed.jws);
    expect(hasErrors(testTools().validator.validateText(signed.submission))).toBe(false);
    // Ed25519 signs the same way each time (RFC 8032), so that sending again sends the same.
    expect((await signCase(prepared, site, key)).submission).toBe(signed.submission);
  });
});
