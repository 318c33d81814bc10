import type { Outbox } from '../../delivery/outbox/outbox.js';
import type { Language } from '../../findings/languages.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import type { WantedReport } from '../../pipeline/print-report.js';
import type { WantedReports } from './case-handlers.js';

/** What is to be done with a case that a request brought, and the language that people read the answer in. */
export type Wanted = WhatToDo & { readonly language?: Language };

type WhatToDo =
  | { readonly do: 'check' }
  | { readonly do: 'merge'; readonly kits: readonly string[] }
  | { readonly do: 'dose' }
  | { readonly do: 'trays' }
  | { readonly do: 'events'; readonly at: string | undefined; readonly accept: boolean }
  /** The body is a response to the form of the record. */
  | { readonly do: 'from-response' }
  | ({ readonly do: 'prepare' } & WantedReports)
  | { readonly do: 'report'; readonly report: WantedReport }
  | {
      readonly do: 'store';
      readonly to: string | undefined;
      /** What the destinations refer to, by reference: a thread reads no environment and no file of secrets. */
      readonly secrets: ReadonlyMap<string, string>;
    };

/** One request about a case, as a thread gets it. */
export interface CaseJob {
  readonly body: Uint8Array;
  /** Content-Type of the body. */
  readonly type: string;
  /** Of one record. */
  readonly maxBytes: number;
  readonly wanted: Wanted;
}

/** What a thread asks of the outbox, which stays with the service. */
export type CaseQuestion =
  | { readonly ask: 'list'; readonly filter: Parameters<Outbox['list']>[0] }
  | { readonly ask: 'put'; readonly item: Parameters<Outbox['put']>[0]; readonly now: number };

/** What the outbox said, or the error that it threw. */
export type CaseTold = { readonly value: unknown } | { readonly error: { code?: string; message: string } };

/** What a thread is started with. */
export interface CaseThreadData {
  readonly site: OpenedSite;
  readonly softwareVersion: string;
}
