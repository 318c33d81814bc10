/** How long nothing that moved can be touched, in milliseconds: as long as a finger needs to stop. */
export const SETTLE = 350;

/**
 * Keeps buttons from moving under a finger. What arrives waits while a finger is down; once rows have moved, touches on
 * them do nothing for a moment, so that nobody hits what was not there when they aimed. Keys are never held up.
 */
export class Guard {
  #down = false;
  #waiting: (() => void) | undefined;
  #until = 0;
  readonly #page: HTMLElement;

  constructor(page: HTMLElement = document.documentElement) {
    this.#page = page;
  }

  /** Shows what arrived, now or when the finger is up; of two that wait the newer one. @param show true where rows moved */
  show(show: () => boolean): void {
    if (this.#down) {
      this.#waiting = () => this.#settle(show());
      return;
    }
    this.#settle(show());
  }

  /** @returns what takes it off the page again. */
  watch(): () => void {
    const ending = new AbortController();
    const { signal } = ending;
    addEventListener(
      'pointerdown',
      () => {
        this.#down = true;
      },
      { signal, capture: true },
    );
    for (const name of ['pointerup', 'pointercancel', 'blur'])
      addEventListener(name, () => this.#up(), { signal, capture: true });
    addEventListener('click', event => this.#stop(event), { signal, capture: true });
    return () => ending.abort();
  }

  /** After the click that the finger makes. */
  #up(): void {
    this.#down = false;
    setTimeout(() => {
      const waiting = this.#waiting;
      if (this.#down || !waiting) return;
      this.#waiting = undefined;
      waiting();
    });
  }

  #settle(moved: boolean): void {
    if (!moved) return;
    this.#until = performance.now() + SETTLE;
    this.#page.dataset['settling'] = '';
    setTimeout(() => {
      if (performance.now() >= this.#until - 5) delete this.#page.dataset['settling'];
    }, SETTLE);
  }

  #stop(event: MouseEvent): void {
    // A click of the keyboard has no place on the screen.
    const byKey = event.detail === 0;
    const moves = event.target instanceof Element && event.target.closest('[data-moves]') !== null;
    if (byKey || !moves || performance.now() >= this.#until) return;
    event.preventDefault();
    event.stopPropagation();
  }
}
