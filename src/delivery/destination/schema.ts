import { z } from 'zod';
import { type Finding, finding } from '../../findings/finding.js';
import { SECRET_REFERENCE, type SecretSource } from '../auth/secrets.js';
import {
  addressFindings,
  DESTINATION_DEFAULTS,
  type Destination,
  FHIR_VERSIONS,
  PROFILE_CLAIMS,
} from './destination.js';

const text = z.string().min(1);
const secret = z
  .string()
  .regex(SECRET_REFERENCE, 'a reference, env:NAME or file:PATH; the secret itself never stands here')
  .describe('Where the secret is: env:NAME or file:PATH');

const auth = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({ kind: z.literal('basic'), user: secret, password: secret }),
    z.strictObject({ kind: z.literal('bearer'), token: secret }),
    z.strictObject({
      kind: z.literal('client credentials'),
      tokenUrl: z.url(),
      clientId: text,
      secret,
      scope: text.optional(),
      sendSecretIn: z.enum(['header', 'body']).default('header'),
    }),
    z.strictObject({
      kind: z.literal('smart backend'),
      clientId: text,
      key: secret.describe('Private key as JWK or PKCS#8 PEM: env:NAME or file:PATH'),
      keyId: text.optional().describe('kid of the key; the thumbprint of the key when absent'),
      algorithm: z.enum(['RS384', 'ES384']).default('ES384'),
      tokenUrl: z.url().optional().describe('Found by discovery at the server when absent'),
      scope: text.default('system/*.cruds'),
      jwksUrl: z.url().optional().describe('Address of the public keys, sent as jku'),
      assertionLifetime: z
        .number()
        .int()
        .min(10)
        .max(300)
        .default(240)
        .describe('Seconds; five minutes at most'),
    }),
  ])
  .prefault({ kind: 'none' });

/** One destination as the site file writes it. */
export const destinationSchema = z.strictObject({
  url: z.url().describe('Base address of the FHIR server'),
  timeout: z.number().int().min(1).max(600).default(30).describe('Seconds for one request and its answer'),
  headers: z.record(text, text).prefault({}).describe('Extra headers; none of them secret'),
  mediaType: z.enum(['application/fhir+json', 'application/json']).default('application/fhir+json'),
  mode: z
    .enum(['transaction', 'batch', 'single'])
    .default('transaction')
    .describe(
      'batch: in batches, each after those that it refers to; single: one resource after the other; both for servers without transactions',
    ),
  fhirVersion: z
    .enum(FHIR_VERSIONS)
    .default('4.0.1')
    .describe('Release of FHIR that the server speaks; submissions are written in it'),
  metadataAge: z
    .number()
    .int()
    .min(0)
    .max(2_592_000)
    .default(86_400)
    .describe('Seconds for which what the server says of itself is believed'),
  undeclaredTransaction: z
    .boolean()
    .default(false)
    .describe('true to try a transaction where the server does not declare any'),
  maxEntries: z.number().int().min(1).optional(),
  maxBytes: z.number().int().min(1).optional(),
  maxAnswerBytes: z
    .number()
    .int()
    .min(4 * 1024 * 1024)
    .default(DESTINATION_DEFAULTS.maxAnswerBytes)
    .describe('Largest answer that is read and kept, in bytes'),
  atomic: z.boolean().default(true).describe('false when what is behind the server cannot roll back'),
  relatesTo: z
    .enum(['send', 'leave out'])
    .default('send')
    .describe(
      'leave out: for a server that refuses documents that name the one before; the report says in words what it replaces',
    ),
  profiles: z
    .enum(PROFILE_CLAIMS)
    .default('ours')
    .describe(
      'Claims of profiles (meta.profile) that go along; ours: all; base: those of published guides alone; none: for a server that refuses profiles it does not know. casetally doctor says which is needed',
    ),
  packages: z
    .array(text)
    .optional()
    .describe(
      'FHIR packages of the receiver: a folder or .tgz, relative to this file, or name#version in the package cache',
    ),
  receiverProfiles: z
    .array(z.url())
    .optional()
    .describe(
      'Addresses of profiles, of these packages or built in, that the receiver holds resources against',
    ),
  readBack: z
    .boolean()
    .default(false)
    .describe('true to read everything back and tell what the server changed or dropped'),
  searchLag: z
    .number()
    .int()
    .min(0)
    .max(3600)
    .default(60)
    .describe('Seconds until the server surely finds what was written'),
  plainHttp: z.boolean().default(false).describe('true to allow http beyond this machine'),
  auth,
  tls: z
    .strictObject({ ca: secret.optional(), certificate: secret.optional(), key: secret.optional() })
    .refine(
      tls => (tls.certificate === undefined) === (tls.key === undefined),
      'certificate and key go together',
    )
    .optional()
    .describe('Private certificate authority, and certificate and key for mutual TLS, as PEM'),
});

export type DestinationSettings = z.output<typeof destinationSchema>;
export type AuthSettings = DestinationSettings['auth'];

const FORBIDDEN_HEADERS =
  /^(authorization|proxy-authorization|cookie|content-length|host|transfer-encoding|connection)$/i;

/**
 * A destination ready for use, or what is wrong with its settings; every secret that it refers to must be
 * there. The secrets themselves are not in the destination.
 */
export function configuredDestination(
  name: string,
  settings: DestinationSettings,
  secrets: SecretSource,
): { readonly destination?: Destination; readonly findings: readonly Finding[] } {
  const at = `destinations.${name}`;
  const findings = [
    ...addressFindings(settings.url, `${at}.url`, settings.plainHttp),
    ...Object.keys(settings.headers)
      .filter(header => FORBIDDEN_HEADERS.test(header))
      .map(header =>
        finding('delivery.header-not-allowed', `${at}.headers.${header}`, { destination: name, header }),
      ),
    ...secretsIn(settings)
      .filter(([, reference]) => secrets(reference) === undefined)
      .map(([path, reference]) =>
        finding('delivery.secret-missing', `${at}.${path}`, {
          destination: name,
          reference,
          where: secrets.where?.(reference) ?? reference,
        }),
      ),
  ];
  if (findings.length > 0) return { findings };
  const destination: Destination = {
    ...DESTINATION_DEFAULTS,
    name,
    baseUrl: settings.url.replace(/\/+$/, ''),
    timeoutMs: settings.timeout * 1000,
    headers: settings.headers,
    mediaType: settings.mediaType,
    mode: settings.mode,
    fhirVersion: settings.fhirVersion,
    metadataAgeMs: settings.metadataAge * 1000,
    undeclaredTransaction: settings.undeclaredTransaction,
    atomic: settings.atomic,
    readBack: settings.readBack,
    relatesTo: settings.relatesTo,
    profiles: settings.profiles,
    searchLagMs: settings.searchLag * 1000,
    maxAnswerBytes: settings.maxAnswerBytes,
    ...(settings.maxEntries !== undefined && { maxEntries: settings.maxEntries }),
    ...(settings.maxBytes !== undefined && { maxBytes: settings.maxBytes }),
  };
  return { destination, findings };
}

/** Path and reference of every secret that the settings name. */
function secretsIn({ auth: how, tls }: DestinationSettings): [string, string][] {
  const named: [string, string | undefined][] = [
    ['auth.user', how.kind === 'basic' ? how.user : undefined],
    ['auth.password', how.kind === 'basic' ? how.password : undefined],
    ['auth.token', how.kind === 'bearer' ? how.token : undefined],
    ['auth.secret', how.kind === 'client credentials' ? how.secret : undefined],
    ['auth.key', how.kind === 'smart backend' ? how.key : undefined],
    ['tls.ca', tls?.ca],
    ['tls.certificate', tls?.certificate],
    ['tls.key', tls?.key],
  ];
  return named.flatMap(([path, reference]) => (reference === undefined ? [] : [[path, reference]]));
}
