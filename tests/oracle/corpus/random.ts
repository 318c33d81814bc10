import { createHash } from 'node:crypto';

/** A repeatable source of numbers: the same seed text gives the same run on every machine. */
export interface Random {
  /** An integer from 0 up to, not including, `below`. */
  int(below: number): number;
}

export function seeded(seed: string): Random {
  let state = createHash('sha256').update(seed).digest().readUInt32LE(0);
  const next = () => {
    // mulberry32: short, and good enough to choose sites with.
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return { int: below => Math.floor(next() * below) };
}

export function shuffled<T>(items: readonly T[], seed: string): T[] {
  const random = seeded(seed);
  const out = [...items];
  for (let i = out.length - 1; i > 0; i--) {
    const j = random.int(i + 1);
    const held = out[i] as T;
    out[i] = out[j] as T;
    out[j] = held;
  }
  return out;
}
