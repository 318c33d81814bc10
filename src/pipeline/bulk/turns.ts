/**
 * Lets many jobs run at once and those of one case one after the other, in the order in which they were begun: a later
 * version of a report finds the earlier one where that was stored. Which case a job is about is known only once its
 * record is read, so a job waits until all before it have said theirs.
 */
export class Turns {
  readonly #open = new Map<number, Place>();

  /** A job is begun; numbers rise. */
  begin(job: number): void {
    this.#open.set(job, { case: undefined, go: undefined });
  }

  /** Fulfilled when no job before it is, or may be, about the same case. */
  declare(job: number, ofCase: string): Promise<void> {
    const place = this.#open.get(job);
    if (!place) return Promise.resolve();
    return new Promise(resolve => {
      place.case = ofCase;
      place.go = resolve;
      this.#look();
    });
  }

  /** A job has ended, whatever came of it. */
  end(job: number): void {
    this.#open.delete(job);
    this.#look();
  }

  /** Lets those go whose turn it is: there are only as many as there are jobs at once. */
  #look(): void {
    const before = new Set<string>();
    for (const place of this.#open.values()) {
      // Of this one it is not known yet, so that nobody behind it goes.
      if (place.case === undefined) return;
      if (!before.has(place.case)) {
        place.go?.();
        place.go = undefined;
      }
      before.add(place.case);
    }
  }
}

interface Place {
  case: string | undefined;
  go: (() => void) | undefined;
}
