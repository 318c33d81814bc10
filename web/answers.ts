/**
 * What the page reads of the service's answers. Types alone; `tests/service/api/answers.test.ts` holds them against
 * those of the service.
 */

export type Severity = 'fatal' | 'error' | 'warning' | 'information';

export interface Finding {
  readonly severity: Severity;
  readonly code: string;
  readonly path: string;
  readonly line?: number;
  readonly column?: number;
  readonly message: string;
  readonly remedy: string;
  readonly basis: string;
  /** The finding that it would go with. */
  readonly follows?: { readonly code: string; readonly path: string };
  readonly acknowledged?: { readonly reason: string; readonly by?: string };
}

export interface TallyRow {
  readonly device: string;
  readonly part?: string;
  readonly name: string;
  readonly state: string;
  readonly said?: { readonly state: string };
  readonly because: string;
  readonly count: number;
  readonly line?: number;
  readonly site?: string;
}

export interface Calculation {
  readonly what: string;
  readonly result?: { readonly text: string };
  readonly notAssessed?: string;
  readonly inputs: readonly { readonly name: string; readonly value: string }[];
  readonly rule: string;
  readonly basis: string;
}

export interface NotChecked {
  readonly what: string;
  readonly because: string;
}

export interface DueDate {
  readonly date: string;
}

export interface AftercareItem {
  readonly earliest?: DueDate;
  readonly due?: DueDate;
  readonly latest?: DueDate;
  readonly said: {
    readonly what: string;
    readonly who: string;
    readonly when: readonly string[];
    readonly call: readonly string[];
  };
}

/** POST /cases/check */
export interface Checked {
  /** False when parts could not be read: then there is nothing to prepare. */
  readonly whole: boolean;
  readonly findings: readonly Finding[];
  readonly tally: readonly TallyRow[];
  readonly calculations: readonly Calculation[];
  readonly aftercare: readonly AftercareItem[];
  readonly notChecked: readonly NotChecked[];
}

export type Reader = 'record' | 'referrer' | 'ward' | 'patient';

/** POST /cases/prepare, without the document and the submission. */
export interface Prepared {
  readonly sendable: boolean;
  readonly findings: readonly Finding[];
  /** SVG. */
  readonly timeline: string;
  /** Where the case goes when no destination is chosen. */
  readonly goesTo: readonly string[];
  /** None for the patient while an error stands or where the patient died; those of the others are then drafts. */
  readonly reports: Readonly<Partial<Record<Reader, { readonly html: string; readonly text: string }>>>;
}

/** GET /destinations */
export interface Destinations {
  readonly destinations: readonly { readonly name: string }[];
}

/** One item of the outbox, as GET /outbox/ID tells of it. */
export interface Item {
  readonly id: string;
  readonly destination: string;
  readonly state: 'waiting' | 'sending' | 'delivered' | 'parked' | 'discarded';
  /** ISO time, UTC. */
  readonly created: string;
  readonly attempts: number;
  readonly outcomeUnknown: boolean;
  readonly reason?: string | undefined;
  readonly said?: { readonly reason?: string | undefined };
  readonly parked?: { readonly reason: string; readonly by: string; readonly findings: readonly Finding[] };
  readonly receipt?: { readonly sentAt: string };
}

/** POST /cases */
export interface Taken {
  readonly items: readonly Item[];
  readonly findings: readonly Finding[];
}

/** GET /me */
export type Me =
  | {
      readonly signedIn: true;
      readonly name: string;
      /** False where the name was typed on this machine. */
      readonly verified: boolean;
    }
  | { readonly signedIn: false; readonly signIn: 'provider' | 'link' | 'none'; readonly tokens: boolean };

/** An OperationOutcome with the findings beside it. */
export interface Refusal {
  readonly issue: readonly { readonly code: string; readonly details: { readonly text: string } }[];
  readonly findings: readonly Finding[];
}
