import { workerData } from 'node:worker_threads';
import { serveJobs } from '../../../service/threads/thread.js';
import type { BulkAnswer, BulkJob, BulkQuestion, BulkThreadData } from './job.js';
import { bulkWorker } from './work.js';

/* A thread that works records out: the module that `casetally bulk` starts. */

serveJobs<BulkJob, BulkAnswer, BulkQuestion>(await bulkWorker(workerData as BulkThreadData));
