/** Does one piece of work in each round of the event loop; undefined where too many wait already. */
export type InTurn = <Result>(work: () => Result) => Promise<Result> | undefined;

/** How many may wait: some seconds of work. */
const MOST = 500;

/**
 * Work that takes some milliseconds without a pause, such as an edit of a draft: of many that come at once none keeps
 * everybody else waiting for all of them.
 */
export function inTurn(most = MOST): InTurn {
  let waiting = 0;
  let last: Promise<unknown> = Promise.resolve();
  return work => {
    if (waiting >= most) return undefined;
    waiting += 1;
    const done = last.then(async () => {
      await new Promise(resolve => setImmediate(resolve));
      try {
        return work();
      } finally {
        waiting -= 1;
      }
    });
    last = done.catch(() => undefined);
    return done;
  };
}
