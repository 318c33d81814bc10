import { createHash } from 'node:crypto';

/** The last entry of a trail: how many there are, and its digest. Whoever keeps one elsewhere notices a cut. */
export interface Head {
  readonly n: number;
  /** SHA-256, 64 hexadecimal digits. */
  readonly digest: string;
}

/** What the first entry names as the digest of the one before it. */
export const BEFORE_ALL = '0'.repeat(64);

/**
 * JSON of one spelling alone: members in the order of their UTF-16 code units, no white space, strings and numbers as
 * ECMAScript writes them (RFC 8785, JSON Canonicalization Scheme). Members without a value are left out.
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const members = Object.entries(value)
    .filter(([, one]) => one !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${members.map(([name, one]) => `${JSON.stringify(name)}:${canonicalJson(one)}`).join(',')}}`;
}

/** The digest of an entry: SHA-256 of the UTF-8 bytes of its canonical JSON, which holds that of the entry before. */
export const digestOfEntry = (canonical: string): string =>
  createHash('sha256').update(canonical, 'utf8').digest('hex');

/** `12:9f…`, as `casetally audit head` prints it. */
export const headText = ({ n, digest }: Head): string => `${n}:${digest}`;

/** Reads what `headText` writes; undefined for anything else. */
export function readHead(text: string): Head | undefined {
  const [, n, digest] = /^(\d{1,15}):([0-9a-f]{64})$/.exec(text.trim()) ?? [];
  return n !== undefined && digest !== undefined ? { n: Number(n), digest } : undefined;
}
