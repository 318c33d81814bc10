import type { Signing } from '../../drafts/sign.js';
import type { Language } from '../../findings/languages.js';
import type { GivenNumber } from '../../pipeline/intake/earlier.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import type { WantedReport } from '../../pipeline/print-report.js';
import type { WantedReports } from './case-handlers.js';
import type { OutboxQuestion } from './outbox-questions.js';

/** What is to be done with a case that a request brought, and the language that people read the answer in. */
export type Wanted = WhatToDo & { readonly language?: Language };

type WhatToDo =
  | { readonly do: 'check' }
  | { readonly do: 'merge'; readonly kits: readonly string[] }
  | { readonly do: 'dose' }
  | { readonly do: 'trays' }
  /** Brings sources into the text of a record, or into a new one; there is no body. */
  | {
      readonly do: 'bring';
      readonly into: string | { readonly id: string | undefined; readonly date: string | undefined };
      readonly order: string | undefined;
      readonly from: string | undefined;
      readonly kits: readonly string[];
      /** Numbers of the patient, for the register. */
      readonly patient: readonly GivenNumber[];
      /** True to bring in what the register has inside the patient. */
      readonly register: boolean;
      /** Records of earlier cases, as they were written. */
      readonly earlier: readonly string[];
      readonly secrets: ReadonlyMap<string, string>;
    }
  | { readonly do: 'ready'; readonly sign?: Signing }
  | { readonly do: 'events'; readonly at: string | undefined; readonly accept: boolean }
  /** The body is a response to the form of the record. */
  | { readonly do: 'from-response' }
  | ({ readonly do: 'prepare' } & WantedReports)
  /** A FHIR resource, which is the body or stands in Parameters; of the address, what goes with the former. */
  | {
      readonly do: 'validate';
      readonly type: string | undefined;
      readonly mode: string | undefined;
      readonly profile: string | undefined;
    }
  /** The body is Parameters with a case in it. */
  | { readonly do: 'process' }
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

/** What a thread asks of the service. */
export type CaseQuestion = OutboxQuestion | InsideQuestion;

/** What the register has inside a patient; see `insideContribution`. */
export interface InsideQuestion {
  readonly ask: 'inside';
  readonly numbers: readonly GivenNumber[];
  readonly at: string;
}

/** What a thread is started with. */
export interface CaseThreadData {
  readonly site: OpenedSite;
  readonly softwareVersion: string;
}
