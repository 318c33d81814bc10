import { type ResourceLimits, Worker } from 'node:worker_threads';

/** Megabytes beside the limit: what a job may take between two looks. Past them the engine may end the whole process. */
const ROOM = 512;
const LOOK_MS = 25;
/** Twice what the engine takes by itself: a case in a tenth less processor time, for some 30 MB a thread. */
const YOUNG = 96;

interface Watched {
  getHeapStatistics(): Promise<{ readonly used_heap_size: number }>;
}

/** Node 22.16 and later tell how much a thread holds while it works. */
const canWatch = 'getHeapStatistics' in Worker.prototype;

const isWatched = (worker: Worker): worker is Worker & Watched => canWatch;

/**
 * The engine's own limit of a thread. It is the last resort: one that is reached in a single step ends the process and not
 * the thread alone, so that the limit proper is watched where that can be done.
 */
export const resourceLimits = (megabytes: number): ResourceLimits => ({
  maxOldGenerationSizeMb: canWatch ? megabytes + ROOM : megabytes,
  maxYoungGenerationSizeMb: YOUNG,
});

/** Looks again and again how much a thread holds. @returns what ends the looking */
export function watchMemory(worker: Worker, megabytes: number, tooLarge: () => void): () => void {
  if (!isWatched(worker)) return () => undefined;
  let timer: NodeJS.Timeout | undefined;
  let over = false;
  const look = () => {
    // A thread that has ended has nothing to tell.
    void worker.getHeapStatistics().then(
      ({ used_heap_size: used }) => {
        if (over) return;
        if (used > megabytes * 1_048_576) tooLarge();
        else timer = setTimeout(look, LOOK_MS);
      },
      () => undefined,
    );
  };
  timer = setTimeout(look, LOOK_MS);
  return () => {
    over = true;
    clearTimeout(timer);
  };
}
