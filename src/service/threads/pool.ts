import { Worker } from 'node:worker_threads';
import { resourceLimits, type ThreadMemory, watchMemory } from './memory.js';

/** How much a pool takes on. */
export interface PoolLimits {
  /** The most threads, each with one job at a time. */
  readonly threads: number;
  /** Jobs that may wait for a thread; more are turned away at once. */
  readonly waiting: number;
  /** The most that a job may take once it is begun. */
  readonly seconds: number;
  /** The most that it may wait before that. */
  readonly waitSeconds: number;
  /** The most memory that a thread may hold in objects that last. */
  readonly megabytes: number;
}

/** What came of a job. `lasting`: something was stored already when its thread ended, or it may have been. */
export type Outcome<Answer> =
  | { readonly kind: 'answered'; readonly answer: Answer }
  /** Nothing was begun: too many wait, it waited too long, or whoever asked is gone. */
  | { readonly kind: 'full' | 'waited' | 'left' }
  | { readonly kind: 'too-long' | 'too-large' | 'died'; readonly lasting: boolean };

/** What a thread says. */
export type FromThread<Answer, Question> =
  | { readonly kind: 'ready' }
  | { readonly kind: 'answer'; readonly answer: Answer }
  | { readonly kind: 'ask'; readonly id: number; readonly question: Question };

/** What a thread is told. */
export type ToThread<Job> =
  | { readonly kind: 'job'; readonly job: Job }
  | { readonly kind: 'told'; readonly id: number; readonly value: unknown };

export interface PoolOptions<Job, Question> {
  /** The module that a thread runs; it calls `serveJobs`. */
  readonly script: URL;
  /** Given to each thread when it starts. */
  readonly data: unknown;
  readonly limits: PoolLimits;
  /** How much of it is for objects that come and go. */
  readonly room: ThreadMemory['room'];
  /** What of a job is handed over in place of being copied. */
  readonly handOver?: (job: Job) => readonly ArrayBuffer[];
  /** Answers what a thread asks in the middle of a job; never rejects. */
  readonly onAsk: (question: Question) => Promise<unknown>;
  /** True for a question that changes something: from then on the job is no longer cut off. */
  readonly isLasting: (question: Question) => boolean;
  /** True for a question whose answer waits for other jobs: that time is not the job's own. */
  readonly waitsForOthers?: (question: Question) => boolean;
}

interface Task<Job, Answer> {
  readonly job: Job;
  readonly done: (outcome: Outcome<Answer>) => void;
  timer: NodeJS.Timeout | undefined;
  lasting: boolean;
  /** What is left of its time, in milliseconds, and since when that runs. */
  left: number;
  since: number;
}

interface Thread<Job, Answer> {
  readonly worker: Worker;
  ready: boolean;
  task?: Task<Job, Answer> | undefined;
  unwatch?: () => void;
}

/** What a pool is at, for figures and for health. */
export interface PoolState {
  readonly threads: number;
  readonly busy: number;
  readonly waiting: number;
  /** Threads that ended and were started anew since the pool began. */
  readonly replaced: number;
  /** Starts that failed in a row. */
  readonly failedStarts: number;
}

/** Waits before a thread that could not start is tried again, in milliseconds. */
const AGAIN_MS = 1_000;

/**
 * Threads that do one job each at a time. The first is there from the beginning, another is started when a job would
 * wait: a thread takes a second or two of a processor to load. One that takes too long, too much memory or dies takes
 * nothing with it but its own job: it is ended and another starts in its place.
 */
export class WorkerPool<Job, Answer, Question> {
  private readonly threads = new Set<Thread<Job, Answer>>();
  private readonly queue: Task<Job, Answer>[] = [];
  private replaced = 0;
  private failedStarts = 0;
  private closed = false;

  private readonly options: PoolOptions<Job, Question>;

  private constructor(options: PoolOptions<Job, Question>) {
    this.options = options;
  }

  /** Starts with one thread. @throws what it throws where it cannot start. */
  static async start<Job, Answer, Question>(
    options: PoolOptions<Job, Question>,
  ): Promise<WorkerPool<Job, Answer, Question>> {
    const pool = new WorkerPool<Job, Answer, Question>(options);
    try {
      await pool.add();
    } catch (error) {
      await pool.close();
      throw error;
    }
    return pool;
  }

  get state(): PoolState {
    const { replaced, failedStarts } = this;
    const all = [...this.threads];
    const busy = all.filter(thread => thread.task).length;
    return { threads: all.length, busy, waiting: this.queue.length, replaced, failedStarts };
  }

  private get memory(): ThreadMemory {
    return { megabytes: this.options.limits.megabytes, room: this.options.room };
  }

  /** True when another job would be turned away. */
  get isFull(): boolean {
    const { waiting, threads } = this.options.limits;
    // What waits for a thread that is still to come does not wait behind others.
    const coming = threads - [...this.threads].filter(({ ready }) => ready).length;
    return this.queue.length >= waiting + coming && !this.free();
  }

  /** Does a job. @param gone told when nobody waits for the answer any more; a job that was begun is finished. */
  run(job: Job, gone?: AbortSignal): Promise<Outcome<Answer>> {
    if (this.closed || gone?.aborted) return Promise.resolve({ kind: 'left' });
    if (this.isFull) return Promise.resolve({ kind: 'full' });
    return new Promise(resolve => {
      const leave = () => this.drop(task, { kind: 'left' });
      const task: Task<Job, Answer> = {
        job,
        lasting: false,
        left: this.options.limits.seconds * 1000,
        since: 0,
        timer: setTimeout(() => this.drop(task, { kind: 'waited' }), this.options.limits.waitSeconds * 1000),
        done: outcome => {
          clearTimeout(task.timer);
          gone?.removeEventListener('abort', leave);
          resolve(outcome);
        },
      };
      gone?.addEventListener('abort', leave, { once: true });
      this.queue.push(task);
      this.next();
      if (this.queue.includes(task)) this.more();
    });
  }

  /** Ends all threads and turns away what waits. */
  async close(): Promise<void> {
    this.closed = true;
    for (const task of this.queue.splice(0)) task.done({ kind: 'left' });
    await Promise.all([...this.threads].map(({ worker }) => worker.terminate()));
  }

  private free(): Thread<Job, Answer> | undefined {
    return [...this.threads].find(thread => thread.ready && !thread.task);
  }

  /** Gives waiting jobs to free threads. */
  private next(): void {
    for (let thread = this.free(); thread; thread = this.free()) {
      const task = this.queue.shift();
      if (!task) return;
      const { worker } = thread;
      thread.task = task;
      this.time(task, worker);
      thread.unwatch = watchMemory(worker, this.memory, () => {
        task.done({ kind: 'too-large', lasting: task.lasting });
        void worker.terminate();
      });
      worker.postMessage({ kind: 'job', job: task.job } satisfies ToThread<Job>, [
        ...(this.options.handOver?.(task.job) ?? []),
      ]);
    }
  }

  /** Lets the time of a job run, from where it stood. */
  private time(task: Task<Job, Answer>, worker: Worker): void {
    clearTimeout(task.timer);
    task.since = performance.now();
    task.timer = setTimeout(() => {
      task.done({ kind: 'too-long', lasting: task.lasting });
      void worker.terminate();
    }, task.left);
  }

  /** Takes a job back that no thread has begun. */
  private drop(task: Task<Job, Answer>, outcome: Outcome<Answer>): void {
    const index = this.queue.indexOf(task);
    if (index < 0) return;
    this.queue.splice(index, 1);
    task.done(outcome);
  }

  /** Starts a thread; fulfilled when it is ready. */
  private add(): Promise<void> {
    const { script, data } = this.options;
    const worker = new Worker(script, { workerData: data, resourceLimits: resourceLimits(this.memory) });
    const thread: Thread<Job, Answer> = { worker, ready: false };
    this.threads.add(thread);
    return new Promise((resolve, reject) => {
      let failed: Error | undefined;
      worker.on('message', (message: FromThread<Answer, Question>) => {
        if (message.kind === 'ready') {
          this.failedStarts = 0;
          thread.ready = true;
          resolve();
          this.next();
        } else this.heard(thread, message);
      });
      worker.on('error', error => {
        failed = error;
      });
      worker.on('exit', () => {
        this.threads.delete(thread);
        thread.unwatch?.();
        const { task } = thread;
        task?.done({ kind: isOutOfMemory(failed) ? 'too-large' : 'died', lasting: task.lasting });
        if (thread.ready) this.replace();
        else reject(failed ?? new Error('A thread ended before it was ready.'));
      });
    });
  }

  private heard(
    thread: Thread<Job, Answer>,
    message: Exclude<FromThread<Answer, Question>, { kind: 'ready' }>,
  ): void {
    const { task, worker } = thread;
    if (!task) return;
    if (message.kind === 'answer') {
      thread.unwatch?.();
      thread.task = undefined;
      task.done({ kind: 'answered', answer: message.answer });
      this.next();
      return;
    }
    const { id, question } = message;
    if (this.options.isLasting(question)) {
      // The case is worked out, and what is left is to store it: that is not cut off in the middle.
      task.lasting = true;
      clearTimeout(task.timer);
    }
    const waits = this.options.waitsForOthers?.(question) === true && !task.lasting;
    if (waits) {
      clearTimeout(task.timer);
      task.left = Math.max(0, task.left - (performance.now() - task.since));
    }
    void this.options.onAsk(question).then(value => {
      if (waits && thread.task === task && this.threads.has(thread)) this.time(task, worker);
      worker.postMessage({ kind: 'told', id, value } satisfies ToThread<Job>);
    });
  }

  /** Starts another thread where a job waits and there may be one more; one at a time, those that start are for it. */
  private more(): void {
    const starting = [...this.threads].filter(thread => !thread.ready).length;
    if (this.closed || starting >= this.queue.length || this.threads.size >= this.options.limits.threads)
      return;
    // Where it cannot start, those that are there do the work; the next job that waits tries it again.
    void this.add().catch(() => undefined);
  }

  private replace(): void {
    if (this.closed) return;
    this.replaced += 1;
    void this.add().catch(() => {
      this.failedStarts += 1;
      setTimeout(() => this.replace(), AGAIN_MS).unref();
    });
  }
}

function isOutOfMemory(error: Error | undefined): boolean {
  return error !== undefined && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY';
}
