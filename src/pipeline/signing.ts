import type { Provenance, Signature } from 'fhir/r4.js';
import {
  CompactSign,
  type CompactVerifyResult,
  calculateJwkThumbprint,
  compactVerify,
  createLocalJWKSet,
  exportJWK,
  importJWK,
  importPKCS8,
  type JWK,
} from 'jose';
import { submissionBundle } from '../fhir/bundles/submission.js';
import { signatureTypes } from '../fhir/codes/document.js';
import { codingOf } from '../fhir/codes/types.js';
import type { ResourceEntry } from '../fhir/set.js';
import { CasetallyError } from '../findings/errors.js';
import { writeFhirJson } from '../json/write.js';
import type { Site } from '../site/site.js';
import type { PreparedCase } from './prepare.js';
import { submissionOptions } from './settings.js';

/** Algorithms that a site key signs with; EdDSA over Ed25519 gives the same signature each time. */
const ALGORITHMS = ['ES384', 'EdDSA'] as const;
type Algorithm = (typeof ALGORITHMS)[number];

/** A site's private key, ready for signing. */
export interface SiteKey {
  readonly key: Awaited<ReturnType<typeof importJWK>>;
  readonly keyId: string;
  readonly algorithm: Algorithm;
}

/** A prepared case whose document is signed; the submission tells of the signature in its Provenance. */
export interface SignedCase extends PreparedCase {
  /** Detached JWS (RFC 7515, appendix F) over the bytes of `document`. */
  readonly jws: string;
}

/**
 * Reads a private key for signing: a JWK (P-384 or Ed25519) or a PKCS#8 PEM of one of these.
 * @throws CasetallyError 'settings-invalid' without any part of the key in it.
 */
export async function readSiteKey(text: string): Promise<SiteKey> {
  try {
    const jwk = text.trimStart().startsWith('-----BEGIN') ? await jwkOf(text) : (JSON.parse(text) as JWK);
    const algorithm = algorithmOf(jwk);
    const key = await importJWK(jwk, algorithm);
    if (!algorithm || key instanceof Uint8Array || key.type !== 'private') throw new TypeError('no key');
    return { key, algorithm, keyId: jwk.kid ?? (await calculateJwkThumbprint(jwk)) };
  } catch {
    // The cause is left out: its message can quote the key.
    throw new CasetallyError(
      'settings-invalid',
      'The signing key is no private P-384 or Ed25519 key as JWK or PKCS#8 PEM',
    );
  }
}

async function jwkOf(pem: string): Promise<JWK> {
  for (const algorithm of ALGORITHMS) {
    const key = await importPKCS8(pem, algorithm, { extractable: true }).catch(() => undefined);
    if (key) return exportJWK(key);
  }
  throw new TypeError('no key');
}

function algorithmOf({ kty, crv }: JWK): Algorithm | undefined {
  if (kty === 'EC' && crv === 'P-384') return 'ES384';
  return kty === 'OKP' && crv === 'Ed25519' ? 'EdDSA' : undefined;
}

/** Signs the document of a prepared case with the site's key, and tells of it in the Provenance of the submission. */
export async function signCase(prepared: PreparedCase, site: Site, siteKey: SiteKey): Promise<SignedCase> {
  const jws = await signText(prepared.document, siteKey);
  const entries = prepared.resources.entries.map(entry => withSignature(entry, jws, prepared));
  const resources = { ...prepared.resources, entries };
  const submission = submissionBundle(resources, submissionOptions(site, prepared.sentBefore));
  return { ...prepared, resources, submission: `${writeFhirJson(submission)}\n`, jws };
}

/** Detached JWS over the UTF-8 bytes of a text: header and signature, nothing between the two points. */
export async function signText(text: string, { key, keyId, algorithm }: SiteKey): Promise<string> {
  const signed = await new CompactSign(new TextEncoder().encode(text))
    .setProtectedHeader({ alg: algorithm, kid: keyId, typ: 'JOSE', cty: 'application/fhir+json' })
    .sign(key);
  const [header, , signature] = signed.split('.');
  return `${header}..${signature}`;
}

/** Whether a detached JWS is over exactly these bytes, by one of the keys, and by which. */
export type Verdict =
  | { readonly valid: true; readonly keyId?: string; readonly algorithm: string }
  | { readonly valid: false; readonly why: string };

/**
 * Verifies a detached JWS.
 * @param keys JWKS, or a single public JWK
 */
export async function verifyBytes(bytes: Uint8Array, jws: string, keys: unknown): Promise<Verdict> {
  const parts = jws.trim().split('.');
  if (parts.length !== 3 || parts[1] !== '') return { valid: false, why: 'this is no detached JWS' };
  const list = await keysIn(keys);
  if (!list) return { valid: false, why: 'this is no JWKS and no JWK' };
  const whole = `${parts[0]}.${Buffer.from(bytes).toString('base64url')}.${parts[2]}`;
  try {
    const { protectedHeader }: CompactVerifyResult = await compactVerify(
      whole,
      createLocalJWKSet({ keys: list }),
      { algorithms: [...ALGORITHMS] },
    );
    const { kid, alg } = protectedHeader;
    return { valid: true, algorithm: alg, ...(kid !== undefined && { keyId: kid }) };
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    return { valid: false, why: reasons[code] ?? 'the signature cannot be read' };
  }
}

const reasons: Readonly<Record<string, string>> = {
  ERR_JWS_SIGNATURE_VERIFICATION_FAILED:
    'the document is not the one that was signed, or another key signed it',
  ERR_JWKS_NO_MATCHING_KEY: 'none of the keys is the one that signed',
  ERR_JWKS_MULTIPLE_MATCHING_KEYS: 'several of the keys may have signed: give each a kid',
  ERR_JOSE_ALG_NOT_ALLOWED: `it is signed with another algorithm than ${ALGORITHMS.join(' or ')}`,
};

/** The keys of a JWKS or of one JWK; one without an id goes by its thumbprint (RFC 7638), as when it signed. */
async function keysIn(value: unknown): Promise<JWK[] | undefined> {
  if (typeof value !== 'object' || value === null) return undefined;
  const list: unknown[] = 'keys' in value ? (Array.isArray(value.keys) ? value.keys : []) : [value];
  const keys = list.filter(
    (key): key is JWK =>
      typeof key === 'object' && key !== null && 'kty' in key && typeof key.kty === 'string',
  );
  if (keys.length === 0) return undefined;
  return Promise.all(
    keys.map(async key => ({ ...key, kid: key.kid ?? (await calculateJwkThumbprint(key).catch(() => '')) })),
  );
}

/** R4 Signature: by whom, when, over what; the JWS itself travels in base64. */
function withSignature(
  entry: ResourceEntry,
  jws: string,
  { resources, record }: PreparedCase,
): ResourceEntry {
  if (entry.resource.resourceType !== 'Provenance' || entry.earlier) return entry;
  const organization = resources.entries.find(({ role }) => role === 'organization');
  if (!organization) return entry;
  const signature: Signature = {
    type: [codingOf(signatureTypes.source)],
    when: resources.timestamp,
    who: { reference: organization.fullUrl },
    targetFormat: 'application/fhir+json',
    sigFormat: 'application/jose',
    data: Buffer.from(jws, 'utf8').toString('base64'),
  };
  const resource: Provenance = { ...entry.resource, signature: [signature] };
  const sources = { ...entry.sources, 'Provenance.signature': 'report.signedAt' };
  return { ...entry, resource, ...(record.report.signedAt && { sources }) };
}
