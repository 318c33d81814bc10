import { OwnEdits } from './own-edits.js';
import { joinedText, type Made, madeOver, settledText } from './settle.js';
import type {
  DraftState,
  Edits,
  FromServer,
  NotMade,
  Saving,
  SessionPorts,
  SessionView,
  Step,
  Unsaved,
} from './types.js';

const [FIRST_WAIT, LONGEST_WAIT] = [1_000, 30_000];

/**
 * One draft on the page. Edits are made at once, here; what differs from what the service has is sent after them, one
 * batch at a time, and what others changed meanwhile is taken in. While the service is away everything goes on.
 */
export class Session {
  readonly #ports: SessionPorts;
  readonly id: string;
  #saved: { version: number; text: string };
  #text: string;
  #sent: Unsaved['sent'];
  /** Something is on its way: sent twice, its second answer would be taken for that to something else. */
  #onItsWay = false;
  #state: DraftState;
  #saving: Saving = { kind: 'saved' };
  #undo: Step[] = [];
  #redo: Step[] = [];
  readonly #own = new OwnEdits();
  #queue: Promise<unknown> = Promise.resolve();
  #wait = FIRST_WAIT;
  #takeBack: (() => void) | undefined;
  #ended = false;

  private constructor(ports: SessionPorts, unsaved: Unsaved, state: DraftState) {
    this.#ports = ports;
    this.id = unsaved.id;
    this.#saved = unsaved.saved;
    this.#text = unsaved.text;
    this.#sent = unsaved.sent;
    this.#state = state;
  }

  /** Opens a draft, with what was not saved of it when the page was left. */
  static async open(
    id: string,
    ports: SessionPorts,
  ): Promise<Session | Exclude<FromServer, { kind: 'draft' }>> {
    const [found, kept] = await Promise.all([ports.server.read(id), ports.kept.read(id)]);
    if (found.kind === 'draft') {
      const { version, text, state } = found.draft;
      const unsaved = kept ?? { id, saved: { version, text }, text };
      const session = new Session(ports, unsaved, state);
      session.#tell();
      session.#next(() => session.#take({ version, text }, state));
      return session;
    }
    if (found.kind !== 'away' || !kept) return found;
    const session = new Session(ports, kept, 'open');
    session.#saving = { kind: 'away' };
    session.#tell();
    session.#soon();
    return session;
  }

  view(): SessionView {
    return {
      ...{ text: this.#text, state: this.#state, version: this.#saved.version, saving: this.#saving },
      ...{ canUndo: this.#undo.length > 0, canRedo: this.#redo.length > 0 },
    };
  }

  /**
   * @param from the text that the edits were made for, where that is not the one that stands here now
   * @returns why nothing was changed.
   */
  edit(edits: Edits, from?: string): Promise<NotMade> {
    return this.#next(() => this.#make(from ?? this.#text, edits, this.#undo, true));
  }

  undo(): Promise<NotMade> {
    return this.#next(() => this.#step(this.#undo, this.#redo));
  }

  redo(): Promise<NotMade> {
    return this.#next(() => this.#step(this.#redo, this.#undo));
  }

  /** Takes over a whole text that was made from one that stood here. */
  replace(from: string, text: string): Promise<NotMade> {
    return this.#next(async () => {
      const made = await this.#ports.engine.merge({ base: from, now: this.#text }, text);
      if ('findings' in made) return made.findings;
      this.#redo = [];
      return this.#made(made, this.#undo);
    });
  }

  /** The service has another version, or may have. */
  look(version?: number): void {
    if (version !== undefined && version <= this.#saved.version) return;
    void this.#next(async () => {
      if (this.#sent) return;
      const found = await this.#ports.server.read(this.id);
      if (found.kind === 'draft') await this.#take(found.draft, found.draft.state);
      else this.#not(found);
    });
  }

  /** Tries at once what waits: the network is back, or somebody signed in again. */
  retry(): void {
    this.#wait = FIRST_WAIT;
    this.#soon(0);
  }

  /** Settles what others set differently. @param mine paths at which what stands here is meant */
  settle(mine: ReadonlySet<string>): Promise<NotMade> {
    return this.#next(async () => {
      const { engine, server } = this.#ports;
      const { kind } = this.#saving;
      const found = kind === 'conflict' ? await server.read(this.id) : undefined;
      if (this.#saving.kind !== 'conflict' || found?.kind !== 'draft') return undefined;
      const { conflicts } = this.#saving;
      const texts = { saved: this.#saved.text, mine: this.#text, theirs: found.draft.text };
      const settled = await settledText(engine, texts, conflicts, mine);
      if ('findings' in settled) return settled.findings;
      this.#saved = { version: found.draft.version, text: found.draft.text };
      this.#text = settled.text;
      this.#own.end();
      this.#sent = undefined;
      // What was undone is about texts that neither side has any more.
      [this.#undo, this.#redo] = [[], []];
      this.#saving = { kind: 'saving' };
      await this.#afterChange();
      return undefined;
    });
  }

  /** What was not saved stays kept. */
  end(): void {
    this.#ended = true;
    this.#takeBack?.();
  }

  /** One after the other, in the order in which they were asked for. */
  #next<T>(work: () => Promise<T>): Promise<T> {
    const done = this.#queue.then(work);
    this.#queue = done.catch(() => undefined);
    return done;
  }

  async #make(base: string, edits: Edits, onto: Step[], fresh: boolean): Promise<NotMade> {
    if (this.#state !== 'open') return [];
    const since = this.#own.since(base, this.#text);
    const texts = { base, now: this.#text, ...(since && { since }) };
    const made = await madeOver(this.#ports.engine, texts, edits);
    if ('findings' in made) return made.findings;
    if (fresh) this.#redo = [];
    return this.#made(made, onto);
  }

  async #made({ text, inverse, edits }: Made, onto: Step[]): Promise<undefined> {
    if (text === this.#text) return;
    this.#own.add(this.#text, edits);
    this.#text = text;
    onto.push({ text, back: inverse });
    await this.#afterChange();
  }

  async #step(from: Step[], onto: Step[]): Promise<NotMade> {
    const step = from.at(-1);
    if (!step) return undefined;
    const not = await this.#make(step.text, step.back, onto, false);
    // What can no longer be taken back, since others changed it, is passed over the next time.
    from.pop();
    this.#tell();
    return not;
  }

  async #afterChange(): Promise<void> {
    this.#tell();
    await this.#keep();
    this.#soon(0);
  }

  async #keep(): Promise<void> {
    const { kept } = this.#ports;
    const saved = this.#text === this.#saved.text && !this.#sent;
    const unsaved = { id: this.id, saved: this.#saved, text: this.#text };
    // A browser that keeps nothing must not stop anybody from working.
    await (saved
      ? kept.erase(this.id)
      : kept.write({ ...unsaved, ...(this.#sent && { sent: this.#sent }) })
    ).catch(() => undefined);
  }

  #soon(ms = this.#wait): void {
    if (this.#ended) return;
    this.#takeBack?.();
    this.#takeBack = this.#ports.later(() => void this.#next(() => this.#send()), ms);
  }

  async #send(): Promise<void> {
    if (this.#ended || this.#onItsWay || this.#saving.kind === 'conflict' || this.#state !== 'open') return;
    if (!this.#sent) {
      if (this.#text === this.#saved.text) return this.#say({ kind: 'saved' });
      const edits = await this.#ports.engine.between(this.#saved.text, this.#text);
      if ('findings' in edits) {
        this.#say({ kind: 'refused', why: String(edits.findings[0]?.code ?? '') });
        return;
      }
      this.#sent = { batch: this.#ports.newBatch(), text: this.#text, edits };
      await this.#keep();
    }
    const { batch, edits, text } = this.#sent;
    if (this.#saving.kind !== 'away') this.#say({ kind: 'saving' });
    this.#onItsWay = true;
    // Outside of the queue, so that taps are answered while the service is slow.
    void this.#ports.server
      .save(this.id, this.#saved.version, batch, edits)
      .then(answer => this.#next(() => this.#answered(text, answer)));
  }

  async #answered(sent: string, answer: FromServer): Promise<void> {
    this.#onItsWay = false;
    if (this.#ended) return;
    if (answer.kind === 'saved') {
      this.#wait = FIRST_WAIT;
      this.#sent = undefined;
      const { version, text } = answer;
      if (!(await this.#join(sent, text))) return;
      this.#saved = { version, text };
      await this.#afterSaving();
      return;
    }
    if (answer.kind === 'away') {
      this.#say({ kind: 'away' });
      this.#soon(answer.after ?? this.#wait);
      this.#wait = Math.min(LONGEST_WAIT, this.#wait * 2);
      return;
    }
    if (answer.kind === 'conflict') {
      this.#sent = undefined;
      this.#say({ kind: 'conflict', conflicts: answer.conflicts });
      await this.#keep();
      return;
    }
    // Nothing of it was saved: what is sent next is made anew.
    if (answer.kind === 'refused') this.#sent = undefined;
    this.#not(answer);
    if (answer.kind === 'closed') {
      const found = await this.#ports.server.read(this.id);
      if (found.kind === 'draft') this.#state = found.draft.state;
      this.#tell();
    }
  }

  #not(answer: FromServer): void {
    if (answer.kind === 'nobody') this.#say({ kind: 'nobody', status: answer.status });
    else if (answer.kind === 'refused') this.#say({ kind: 'refused', why: answer.why });
    else if (answer.kind === 'closed' || answer.kind === 'missing') this.#say({ kind: answer.kind });
  }

  /** Takes in a version of the service. */
  async #take({ version, text }: { version: number; text: string }, state: DraftState): Promise<void> {
    this.#state = state;
    // With something on its way nobody can tell what of it is in there: the answer to it will.
    if (!this.#sent && version !== this.#saved.version) {
      if (!(await this.#join(this.#saved.text, text))) return;
      this.#saved = { version, text };
    }
    await this.#afterSaving();
  }

  /** Puts what others made of a text under what was changed here since. False where the two contend. */
  async #join(base: string, theirs: string): Promise<boolean> {
    const joined = await joinedText(this.#ports.engine, { saved: base, mine: this.#text, theirs });
    if (!('text' in joined)) {
      this.#say(joined);
      return false;
    }
    if (joined.text !== this.#text) this.#own.end();
    this.#text = joined.text;
    return true;
  }

  async #afterSaving(): Promise<void> {
    await this.#keep();
    if (this.#text === this.#saved.text && !this.#sent) this.#say({ kind: 'saved' });
    else this.#soon(0);
    this.#tell();
  }

  #say(saving: Saving): void {
    this.#saving = saving;
    this.#tell();
  }

  #tell(): void {
    this.#ports.changed(this.view());
  }
}
