/** Wrong tries of one address within a minute before it has to wait. */
export const MOST_WRONG = 30;
const MINUTE_MS = 60_000;
/** Addresses that are remembered at once. */
const MOST_ADDRESSES = 10_000;

/**
 * Counts wrong tokens and links by address. Past the limit an address has to wait for the end of its minute, whatever it
 * shows; no longer, since several callers may stand behind one address.
 */
export class WrongTries {
  readonly #kept = new Map<string, { since: number; count: number }>();
  readonly #clock: () => number;
  readonly #most: number;

  constructor(clock: () => number, most = MOST_ADDRESSES) {
    this.#clock = clock;
    this.#most = most;
  }

  /** Seconds until the address may try again; undefined when it may. */
  wait(address: string): number | undefined {
    const key = networkOf(address);
    const tries = this.#kept.get(key);
    if (!tries) return undefined;
    const left = tries.since + MINUTE_MS - this.#clock();
    if (left <= 0) {
      this.#kept.delete(key);
      return undefined;
    }
    return tries.count >= MOST_WRONG ? Math.ceil(left / 1_000) : undefined;
  }

  wrong(address: string): void {
    const key = networkOf(address);
    const now = this.#clock();
    const tries = this.#kept.get(key);
    if (tries && now < tries.since + MINUTE_MS) {
      tries.count += 1;
      return;
    }
    // Set anew, so that the first is always the oldest.
    this.#kept.delete(key);
    const [oldest] = this.#kept.keys();
    if (this.#kept.size >= this.#most && oldest !== undefined) this.#kept.delete(oldest);
    this.#kept.set(key, { since: now, count: 1 });
  }

  get size(): number {
    return this.#kept.size;
  }
}

/** One machine may have every address of an IPv6 network of 64 bits (RFC 4291, 2.5.1). */
function networkOf(address: string): string {
  const plain = address.replace(/^::ffff:(?=\d+\.)/i, '').replace(/%.*$/, '');
  if (!plain.includes(':')) return plain;
  const [front = '', back] = plain.split('::');
  const groups = front === '' ? [] : front.split(':');
  const behind = back === undefined || back === '' ? [] : back.split(':');
  const zeros = back === undefined ? 0 : Math.max(0, 8 - groups.length - behind.length);
  const all = [...groups, ...Array<string>(zeros).fill('0'), ...behind];
  return all
    .slice(0, 4)
    .map(group => group.toLowerCase().replace(/^0+(?=.)/, ''))
    .join(':');
}
