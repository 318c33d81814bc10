import type { AuditEvent } from 'fhir/r4.js';
import { BEFORE_ALL, canonicalJson, digestOfEntry, type Head } from './chain.js';
import { CHAIN } from './event.js';

/** One entry as it is kept. */
export interface KeptEntry {
  readonly n: number;
  /** Canonical JSON of the AuditEvent; undefined where it can no longer be read. */
  readonly text: string | undefined;
  readonly digest: string;
}

/** Whether a trail is as it was written. */
export type TrailVerdict =
  | { readonly sound: true; readonly head: Head | undefined }
  | { readonly sound: false; readonly n: number; readonly why: string };

/**
 * Looks through a trail from its beginning. A trail that was written anew as a whole is sound in itself, and so is one
 * whose end was cut off: only a head that was kept elsewhere tells.
 *
 * @param known a head of this trail that was kept elsewhere; it must be one of its entries
 */
export async function verifyTrail(
  entries: AsyncIterable<KeptEntry> | Iterable<KeptEntry>,
  known?: Head,
): Promise<TrailVerdict> {
  let head: Head | undefined;
  for await (const { n, text, digest } of entries) {
    const next = (head?.n ?? 0) + 1;
    const broken = (why: string): TrailVerdict => ({ sound: false, n: next, why });
    if (n !== next) return broken(`entry ${next} is missing: ${n} stands in its place`);
    const event = text === undefined ? undefined : eventOf(text);
    if (text === undefined || !event) return broken(`entry ${n} cannot be read`);
    if (digestOfEntry(text) !== digest) return broken(`entry ${n} is not what its digest was made of`);
    if (canonicalJson(event) !== text) return broken(`entry ${n} is not canonical JSON`);
    const link = linkOf(event);
    if (link.number !== String(n)) return broken(`entry ${n} calls itself ${link.number ?? 'nothing'}`);
    if (link.previous !== (head?.digest ?? BEFORE_ALL))
      return broken(`entry ${n} does not follow the one before it`);
    if (known?.n === n && known.digest !== digest)
      return broken(`entry ${n} is another than the one whose digest was kept elsewhere`);
    head = { n, digest };
  }
  if (known && known.n > (head?.n ?? 0))
    return {
      sound: false,
      n: (head?.n ?? 0) + 1,
      why: `the trail ends with entry ${head?.n ?? 0}, and entry ${known.n} was there once`,
    };
  return { sound: true, head };
}

/** The entries of an export, one AuditEvent a line. */
export function* exportedEntries(lines: Iterable<string>): Generator<KeptEntry> {
  let n = 0;
  for (const line of lines) {
    if (line.trim() === '') continue;
    n += 1;
    const event = eventOf(line);
    if (!event) yield { n, text: undefined, digest: '' };
    else {
      const text = canonicalJson(event);
      yield { n: Number(linkOf(event).number), text, digest: digestOfEntry(text) };
    }
  }
}

function eventOf(text: string): AuditEvent | undefined {
  try {
    const event = JSON.parse(text) as AuditEvent | null;
    return event?.resourceType === 'AuditEvent' ? event : undefined;
  } catch {
    return undefined;
  }
}

function linkOf({ entity }: AuditEvent): { readonly number?: string; readonly previous?: string } {
  const detail: unknown = Array.isArray(entity) && entity.find(one => one?.name === CHAIN)?.detail;
  const pairs = Array.isArray(detail) ? (detail as { type?: string; valueString?: string }[]) : [];
  return Object.fromEntries(pairs.map(pair => [pair?.type, pair?.valueString]));
}
