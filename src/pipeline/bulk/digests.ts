/** Numbers of 32 bits that stand for one digest: enough that two never meet. */
const WORDS = 4;

/**
 * A set of SHA-256 digests, as their first 128 bits: 26 to 51 bytes for each, so that a million of them take no more
 * than some records do.
 */
export class DigestSet {
  #size = 0;
  #places = 1024;
  #words = new Uint32Array(this.#places * WORDS);
  #taken = new Uint8Array(this.#places);

  get size(): number {
    return this.#size;
  }

  has(digest: string): boolean {
    return this.#taken[this.#placeOf(wordsOf(digest))] === 1;
  }

  add(digest: string): void {
    if (this.#size * 3 >= this.#places * 2) this.#grow();
    this.#put(wordsOf(digest));
  }

  #put(words: readonly number[]): void {
    const place = this.#placeOf(words);
    if (this.#taken[place] === 1) return;
    this.#words.set(words, place * WORDS);
    this.#taken[place] = 1;
    this.#size += 1;
  }

  /** Where it is, or where it would go. */
  #placeOf(words: readonly number[]): number {
    let place = (words[0] ?? 0) % this.#places;
    while (this.#taken[place] === 1 && !this.#isAt(place, words)) place = (place + 1) % this.#places;
    return place;
  }

  #isAt(place: number, words: readonly number[]): boolean {
    return words.every((word, i) => this.#words[place * WORDS + i] === word);
  }

  #grow(): void {
    const [words, taken] = [this.#words, this.#taken];
    this.#places *= 2;
    this.#words = new Uint32Array(this.#places * WORDS);
    this.#taken = new Uint8Array(this.#places);
    this.#size = 0;
    for (let place = 0; place < taken.length; place += 1)
      if (taken[place] === 1) this.#put([...words.subarray(place * WORDS, (place + 1) * WORDS)]);
  }
}

/** @param digest hexadecimal */
const wordsOf = (digest: string): number[] =>
  Array.from({ length: WORDS }, (_, i) => Number.parseInt(digest.slice(i * 8, i * 8 + 8), 16));
