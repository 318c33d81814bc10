import { totalmem } from 'node:os';
import { type ResourceLimits, Worker } from 'node:worker_threads';

/** Megabytes beside the limit: what a job may take between two looks. Past them the engine may end the whole process. */
const ROOM = 512;
const LOOK_MS = 25;

/**
 * Room for objects that come and go, in megabytes; the engine has a third of it in use. Where it is `wide` the objects of
 * one case fit, and most are gone before the engine looks what is left of them: a case takes a quarter less processor time
 * than where it is `narrow`, for some 170 MB more a thread.
 */
const YOUNG = { wide: 384, narrow: 96 };
/** Of the room for objects that last; with more than that the engine does little but collect. */
const SHARE = 0.75;

/** What a thread may hold. */
export interface ThreadMemory {
  /** The most in objects that last. */
  readonly megabytes: number;
  /** Room for those that come and go: `wide` is faster. */
  readonly room: keyof typeof YOUNG;
}

/** What a thread with wide room holds when it has worked for a while, and something to spare. */
const WIDE_THREAD_MB = 640;

/**
 * Wide room where the memory of the machine, or of the group of processes that this one may use, is enough for it in all
 * threads.
 * @param memory in bytes
 */
export const roomFor = (threads: number, memory: number = ownMemory()): ThreadMemory['room'] =>
  memory / 1_048_576 >= threads * WIDE_THREAD_MB ? 'wide' : 'narrow';

function ownMemory(): number {
  // Nothing, or more than there is, where no group has a limit.
  const limit = process.constrainedMemory();
  return limit > 0 ? Math.min(limit, totalmem()) : totalmem();
}

const youngOf = ({ megabytes, room }: ThreadMemory): number => Math.min(YOUNG[room], megabytes * SHARE);

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
export const resourceLimits = (memory: ThreadMemory): ResourceLimits => ({
  maxOldGenerationSizeMb: canWatch ? memory.megabytes + ROOM : memory.megabytes,
  maxYoungGenerationSizeMb: youngOf(memory),
});

/** Looks again and again how much a thread holds. @returns what ends the looking */
export function watchMemory(worker: Worker, memory: ThreadMemory, tooLarge: () => void): () => void {
  if (!isWatched(worker)) return () => undefined;
  const most = (memory.megabytes + youngOf(memory) / 3) * 1_048_576;
  let timer: NodeJS.Timeout | undefined;
  let over = false;
  const look = () => {
    // A thread that has ended has nothing to tell.
    void worker.getHeapStatistics().then(
      ({ used_heap_size: used }) => {
        if (over) return;
        if (used > most) tooLarge();
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
