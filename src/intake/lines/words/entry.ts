/**
 * What somebody does. `move` takes its meaning from the word with it (`took … out`), `pull` too, else it is a removal;
 * `fix` and `setting` are both the verb `set` of a record, `happened` and `lost` its `note`.
 */
export type Act =
  | 'insert'
  | 'advance'
  | 'withdraw'
  | 'remove'
  | 'pull'
  | 'move'
  | 'exchange'
  | 'inflate'
  | 'deflate'
  | 'deploy'
  | 'release'
  | 'detach'
  | 'capture'
  | 'retrieve'
  | 'lock'
  | 'unlock'
  | 'flush'
  | 'aspirate'
  | 'inject'
  | 'sample'
  | 'puncture'
  | 'fix'
  | 'setting'
  | 'peel away'
  | 'measure'
  | 'ablate'
  | 'tunnel'
  | 'compress'
  | 'cross'
  | 'discard'
  | 'open'
  | 'cut'
  | 'reposition'
  | 'image'
  | 'count'
  | 'happened'
  | 'lost';

export type Preposition =
  | 'over'
  | 'through'
  | 'across'
  | 'into'
  | 'in'
  | 'to'
  | 'on'
  | 'with'
  | 'for'
  | 'from'
  | 'under'
  | 'near';

export type Particle = 'in' | 'out' | 'up' | 'down' | 'back';

/** What a word or phrase of a line does. What is not listed is a noun, or not known. */
export type Entry =
  | { readonly role: 'act'; readonly act: Act; readonly doing: boolean }
  | { readonly role: 'preposition'; readonly preposition: Preposition }
  /** Also a preposition, where a place follows: `down the ureter`. */
  | { readonly role: 'particle'; readonly particle: Particle }
  | { readonly role: 'joint'; readonly joint: 'and' | 'then' | 'comma' }
  | { readonly role: 'article' }
  | { readonly role: 'pointing'; readonly alone: boolean }
  | { readonly role: 'filler' }
  | { readonly role: 'doubt'; readonly doubt: 'denied' | 'tried' | 'failed' | 'planned' | 'open' }
  | { readonly role: 'correction' }
  | { readonly role: 'state'; readonly state: 'intact' | 'damaged' | 'part missing' }
  | { readonly role: 'which'; readonly count?: number; readonly more?: boolean }
  | { readonly role: 'fluid'; readonly agent: string; readonly out: boolean }
  | { readonly role: 'route'; readonly route: string }
  /** What a drug is for. */
  | { readonly role: 'purpose'; readonly purpose: string }
  | { readonly role: 'guidance'; readonly guidance: string }
  | { readonly role: 'setting' }
  /** Something is left as it is. */
  | { readonly role: 'stays' }
  /** Something is got ready, and not yet used. */
  | { readonly role: 'fetched' }
  /** Where a depth is read. */
  | { readonly role: 'atSkin' }
  /** Something is not to be had: why another was taken. */
  | { readonly role: 'stock' }
  /** All that came out. */
  | { readonly role: 'everything' }
  /** `x2`, `twice`: how often, which no event says. */
  | { readonly role: 'times' }
  | { readonly role: 'fixing' }
  | { readonly role: 'specimen' }
  | { readonly role: 'reading' }
  | { readonly role: 'seen' };
