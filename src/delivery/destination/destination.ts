import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';

/** Releases of FHIR that a destination may ask for. */
export const FHIR_VERSIONS = ['4.0.1', '4.3.0', '5.0.0'] as const;

/** Which claims of profiles a destination may ask for, from the most to the least. */
export const PROFILE_CLAIMS = ['ours', 'base', 'none'] as const;

/** A FHIR server to send to, ready for use: no secrets in it, every setting filled in. */
export interface Destination {
  readonly name: string;
  /** Base address without a trailing slash. */
  readonly baseUrl: string;
  /** The release of FHIR that it speaks; submissions are written in it. */
  readonly fhirVersion: (typeof FHIR_VERSIONS)[number];
  /**
   * How a submission travels: as one transaction; or, where a server has none, in batches or one resource after
   * the other, each after those that it refers to.
   */
  readonly mode: 'transaction' | 'batch' | 'single';
  /** How long what the server says of itself is believed, in milliseconds. */
  readonly metadataAgeMs: number;
  /** True to try a transaction where the server does not declare any. */
  readonly undeclaredTransaction: boolean;
  /** Total time for one request and its answer, in milliseconds. */
  readonly timeoutMs: number;
  /** Extra request headers without secrets; authorization is added by `SendDeps.authorize`. */
  readonly headers: Readonly<Record<string, string>>;
  /** Sent as Content-Type and Accept, exactly. */
  readonly mediaType: string;
  /** Largest answer that is read, in bytes. */
  readonly maxAnswerBytes: number;
  /** Limits of the server on what is sent; a submission over them is not sent. */
  readonly maxEntries?: number;
  readonly maxBytes?: number;
  /** False for servers in front of something that cannot roll back: then acceptance is never proof. */
  readonly atomic: boolean;
  /** True to read everything back after it was accepted, and to tell what the server changed or dropped. */
  readonly readBack: boolean;
  /** Whether documents say which earlier one they replace or append to; some servers refuse that. */
  readonly relatesTo: 'send' | 'leave out';
  /** Which claims of profiles go along: all, those of published guides without ours, or none. */
  readonly profiles: (typeof PROFILE_CLAIMS)[number];
  /** How long 'not found' is doubted after an unknown outcome, because searches may lag; milliseconds. */
  readonly searchLagMs: number;
}

/** The settings of a destination that was given as a plain address. */
export const DESTINATION_DEFAULTS = {
  fhirVersion: '4.0.1',
  mode: 'transaction',
  metadataAgeMs: 24 * 3_600_000,
  undeclaredTransaction: false,
  timeoutMs: 30_000,
  headers: {},
  mediaType: 'application/fhir+json',
  maxAnswerBytes: 32 * 1024 * 1024,
  atomic: true,
  readBack: false,
  relatesTo: 'send',
  profiles: 'ours',
  searchLagMs: 60_000,
} as const;

/**
 * A destination from a plain base address, as `--to https://fhir.example.org/r4` gives it. Plain http is taken
 * on loopback only; an address with a user name, a query or a fragment is a finding.
 */
export function destinationAt(
  address: string,
  settings: Partial<Destination> = {},
): { readonly destination?: Destination; readonly findings: readonly Finding[] } {
  const findings = addressFindings(address, settings.name ?? 'destination');
  if (findings.length > 0) return { findings };
  const baseUrl = address.replace(/\/+$/, '');
  return { destination: { ...DESTINATION_DEFAULTS, name: baseUrl, ...settings, baseUrl }, findings };
}

/** What is wrong with a base address; `plainHttp` allows http beyond loopback. */
export function addressFindings(address: string, path: string, plainHttp = false): Finding[] {
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    return [finding('delivery.address-unreadable', path, { address: printable(address) })];
  }
  if (url.protocol !== 'https:' && url.protocol !== 'http:') {
    return [finding('delivery.address-unreadable', path, { address: printable(address) })];
  }
  if (url.username || url.password || url.search || url.hash) {
    return [finding('delivery.address-not-plain', path, { host: url.host })];
  }
  if (url.protocol === 'http:' && !plainHttp && !isLoopback(url.hostname)) {
    return [finding('delivery.address-not-secure', path, { host: url.host })];
  }
  return [];
}

/** True for 127.0.0.0/8, ::1 and localhost. */
export function isLoopback(hostname: string): boolean {
  return hostname === 'localhost' || hostname === '[::1]' || /^127(?:\.\d{1,3}){3}$/.test(hostname);
}

/** An address as it may be shown: without anything before an @. */
function printable(address: string): string {
  return address.replace(/\/\/[^/]*@/, '//…@').slice(0, 200);
}
