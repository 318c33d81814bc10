import type { Conflict } from '../../../src/drafts/merge-nodes.js';
import type { Edit, EditBatch, EngineCalls } from '../engine/work.js';

/** A draft as the service has it. */
export interface ServerDraft {
  readonly version: number;
  readonly text: string;
  readonly state: DraftState;
  readonly by?: string;
  readonly changed?: string;
}
export type DraftState = 'open' | 'closed' | 'signed' | 'taking-in' | 'taken-in' | 'discarded';

/** What came of saving or reading. */
export type FromServer =
  | { readonly kind: 'draft'; readonly draft: ServerDraft }
  | { readonly kind: 'saved'; readonly version: number; readonly text: string }
  /** Others set the same places differently: nothing was saved. */
  | {
      readonly kind: 'conflict';
      readonly version: number;
      readonly text: string;
      readonly conflicts: readonly Conflict[];
    }
  /** The draft is closed, was restored from an earlier copy, or is no longer there. */
  | { readonly kind: 'closed' }
  | { readonly kind: 'missing' }
  /** Nobody is signed in any longer, or the rights do not do. */
  | { readonly kind: 'nobody'; readonly status: number }
  /** It cannot be saved as it is; trying again would not help. */
  | { readonly kind: 'refused'; readonly why: string }
  /** There was no answer, or the service is busy: it is tried again. */
  | { readonly kind: 'away'; readonly after?: number };

/** The drafts of the service, as the page asks for them. */
export interface AtServer {
  read(id: string): Promise<FromServer>;
  /** Answered the same however often one batch is sent. */
  save(id: string, version: number, batch: string, edits: EditBatch): Promise<FromServer>;
}

/** What of a session must outlive the page: a closed tab loses nothing of it. */
export interface Unsaved {
  readonly id: string;
  /** The last version that the service is known to have. */
  readonly saved: { readonly version: number; readonly text: string };
  /** What stands on the page. */
  readonly text: string;
  /** What was sent and not answered yet; sent again under the same batch, it is saved once. */
  readonly sent?: { readonly batch: string; readonly text: string; readonly edits: EditBatch };
}

/** How what stands on the page stands to the service. */
export type Saving =
  | { readonly kind: 'saved' | 'saving' | 'away' | 'closed' | 'missing' }
  | { readonly kind: 'nobody'; readonly status: number }
  | { readonly kind: 'refused'; readonly why: string }
  | { readonly kind: 'conflict'; readonly conflicts: readonly Conflict[] };

export interface SessionView {
  readonly text: string;
  readonly state: DraftState;
  readonly version: number;
  readonly saving: Saving;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}

/** Where unsaved work is kept while the service is away. */
export interface Kept {
  read(id: string): Promise<Unsaved | undefined>;
  write(unsaved: Unsaved): Promise<void>;
  erase(id: string): Promise<void>;
}

export interface SessionPorts {
  readonly engine: EngineCalls;
  readonly server: AtServer;
  readonly kept: Kept;
  readonly newBatch: () => string;
  /** Calls later; gives what takes the call back. */
  readonly later: (call: () => void, ms: number) => () => void;
  readonly changed: (view: SessionView) => void;
}

/** Edits as they are asked for. */
export type Edits = readonly Edit[] | EditBatch;
/** Nothing, or why an edit was not made. */
export type NotMade = readonly { readonly code: string }[] | undefined;
/** Something that can be taken back: what takes it back, and the text that that was made for. */
export interface Step {
  readonly text: string;
  readonly back: EditBatch;
}
