import { Page } from '../../tests/service/case-page/desk.js';
import type { Tab } from '../../tests/support/browser.js';

/** What a person did. */
export interface Done {
  readonly taps: number;
  readonly keys: number;
  readonly words: number;
  readonly labels: number;
}

/**
 * Seconds that each of these takes a person. Pointing and pressing (1.1 s and 0.2 s), a key (0.28 s) and a thought before
 * each step (1.35 s): keystroke-level model of Card, Moran and Newell, from memory. 150 spoken words a minute, and 3 s to
 * take a pack and scan it: common practice, no source.
 */
const SECONDS = { taps: 1.3 + 1.35 / 2, keys: 0.28, words: 0.4, labels: 3 } as const;

/** How long it would take somebody: half of the touches need a thought before. */
export const secondsOf = (done: Done): number =>
  (Object.keys(SECONDS) as (keyof Done)[]).reduce((sum, of) => sum + done[of] * SECONDS[of], 0);

const noneDone: Done = { taps: 0, keys: 0, words: 0, labels: 0 };
export const less = (one: Done, other: Done): Done => ({
  taps: one.taps - other.taps,
  keys: one.keys - other.keys,
  words: one.words - other.words,
  labels: one.labels - other.labels,
});

/** The hand of a person at the page, with a scanner and the dictation of the tablet; counts what it does. */
export class Hand {
  readonly tab: Tab;
  readonly #page: Page;
  #done = noneDone;

  constructor(tab: Tab) {
    this.tab = tab;
    this.#page = new Page(tab);
  }

  get done(): Done {
    return this.#done;
  }

  /** Touches what a selector finds. */
  async tap(selector: string): Promise<void> {
    await this.#page.touch(selector);
    this.#count({ taps: 1 });
  }

  /** Touches the one that an expression finds, once it is there and can be touched. */
  async tapFound(found: string, what: string): Promise<void> {
    await this.#page.touchFound(found, what);
    this.#count({ taps: 1 });
  }

  /** Touches the button or link that begins with these words. */
  async press(words: string, within?: string): Promise<void> {
    await this.#page.press(words, within);
    this.#count({ taps: 1 });
  }

  /** Chooses a file: the field is touched, then the file. @param chosen what the browser does then */
  async choose(chosen: string): Promise<void> {
    await this.tab.value(chosen);
    this.#count({ taps: 2 });
  }

  /** Speaks into the field that has the focus, as the dictation of a tablet writes. */
  async speak(text: string): Promise<void> {
    await this.tab.paste(text);
    this.#count({ words: text.split(/\s+/).length });
  }

  async type(text: string): Promise<void> {
    await this.tab.paste(text);
    this.#count({ keys: text.length });
  }

  async key(name: string): Promise<void> {
    await this.tab.press(name);
    this.#count({ keys: 1 });
  }

  /** Scans a symbol into the field that has the focus. */
  async scanInto(symbol: string): Promise<void> {
    await this.tab.paste(symbol);
    this.#count({ labels: 1 });
  }

  /** Scans a symbol while no field has the focus. */
  async scan(symbol: string): Promise<void> {
    await this.tab.value('document.activeElement?.blur(), 0');
    await this.#page.scan(symbol);
    this.#count({ labels: 1 });
  }

  /** Waits until the service has everything. */
  saved(): Promise<void> {
    return this.#page.saved();
  }

  #count(more: Partial<Done>): void {
    const { taps, keys, words, labels } = this.#done;
    this.#done = {
      taps: taps + (more.taps ?? 0),
      keys: keys + (more.keys ?? 0),
      words: words + (more.words ?? 0),
      labels: labels + (more.labels ?? 0),
    };
  }
}
