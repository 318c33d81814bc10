import type { Finding } from '../../../findings/finding.js';
import type { Counted } from '../../../pipeline/bulk/tally.js';
import type { OpenedSite } from '../../../pipeline/open-case.js';
import type { NewVersion } from '../../../register/store/register.js';
import type { OutboxQuestion } from '../../../service/threads/outbox-questions.js';

/** What is to be done with every case. */
export type Goal =
  | { readonly do: 'store'; readonly to: string | undefined; readonly sign: string | undefined }
  | { readonly do: 'write'; readonly sign: string | undefined }
  | { readonly do: 'register'; readonly system: string | undefined };

/** What a thread is started with. */
export interface BulkThreadData {
  readonly site: OpenedSite;
  readonly goal: Goal;
  readonly data: string | undefined;
  readonly softwareVersion: string;
  /** False to leave PDFs out, which measurements do. */
  readonly pdf: boolean;
}

/** One record, as a thread gets it. */
export interface BulkJob {
  /** Rising in the order of the input. */
  readonly number: number;
  /** What it stands for in the journal. */
  readonly key: string;
  readonly bytes: Uint8Array;
  /** A file in the folder that pictures of the case lie in. */
  readonly file: string;
  /** Where its outputs go; with `write` alone. */
  readonly folder?: string;
  /** Where they are written before they are moved there. */
  readonly staging?: string;
}

/** What a thread asks in the middle of a job. */
export type BulkQuestion =
  | (OutboxQuestion & { readonly key: string })
  /** May the job go on: is no other at work on the same case? */
  | { readonly ask: 'turn'; readonly job: number; readonly case: string }
  /** Files are about to be written. */
  | { readonly ask: 'writing' }
  | { readonly ask: 'take'; readonly version: NewVersion; readonly now: number };

/** What came of a record. */
export type BulkAnswer =
  | { readonly kind: 'done'; readonly counted: readonly Counted[] }
  | {
      readonly kind: 'set-aside';
      readonly counted: readonly Counted[];
      /** The worst, as many as are kept. */
      readonly findings: readonly Finding[];
      /** True where it is no case that can be read. */
      readonly unreadable: boolean;
      /** True where an earlier version was missing that may come yet. */
      readonly early: boolean;
    }
  /** The environment is broken, for every case alike. */
  | { readonly kind: 'broken'; readonly code: string; readonly message: string };
