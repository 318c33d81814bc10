import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { applyEdits } from '../../../src/drafts/edit.js';
import { mergeEdits } from '../../../src/drafts/merge.js';
import type { EngineCalls } from '../../../web/case/engine/work.js';
import { type EditBatch, engineOf } from '../../../web/case/engine/work.js';
import { Session } from '../../../web/case/session/session.js';
import type { AtServer, FromServer, SessionPorts, Unsaved } from '../../../web/case/session/types.js';

/* One draft on a page, and a service that is slow, away, behind or ahead. Names are invented. */

const TEXT = `# typed by hand
case: { id: C-1, date: 2024-03-31 }
patient: { name: Ada Quintanar }
events:
  - { at: "08:30", do: in, device: wire1 } # first
`;

/** The engine of the page, here without a thread. */
const work = engineOf({ site: {}, language: 'en-GB' });
const engine = Object.fromEntries(
  Object.entries(work).map(([name, call]) => [
    name,
    async (...given: never[]) => (call as (...all: never[]) => unknown)(...given),
  ]),
) as unknown as EngineCalls;

/** A service with one draft, as that of Casetally merges. */
class Service implements AtServer {
  versions = [TEXT];
  batches = new Map<string, number>();
  /** What the next requests meet. */
  meets: ('away' | 'lost answer' | 'nobody' | 'closed' | 'refused')[] = [];
  state: 'open' | 'signed' = 'open';
  saves = 0;
  gate: Promise<void> = Promise.resolve();

  get text(): string {
    return this.versions.at(-1) ?? '';
  }
  async read(): Promise<FromServer> {
    if (this.meets[0] === 'away') return { kind: 'away' };
    return { kind: 'draft', draft: { version: this.versions.length, text: this.text, state: this.state } };
  }
  async save(_: string, version: number, batch: string, edits: EditBatch): Promise<FromServer> {
    await this.gate;
    this.saves += 1;
    const met = this.meets.shift();
    if (met === 'away') return { kind: 'away' };
    if (met === 'nobody') return { kind: 'nobody', status: 401 };
    if (met === 'closed') return { kind: 'closed' };
    if (met === 'refused') return { kind: 'refused', why: 'no' };
    const answer = this.#made(version, batch, edits);
    return met === 'lost answer' ? { kind: 'away' } : answer;
  }
  /** Somebody else changes it. */
  others(...edits: Parameters<typeof applyEdits>[1] extends infer E ? [E] : never): void {
    const made = applyEdits(this.text, edits[0]);
    if ('findings' in made) throw new Error('not made');
    this.versions.push(made.text);
  }
  #made(version: number, batch: string, edits: EditBatch): FromServer {
    const there = this.batches.get(batch);
    if (there !== undefined) return { kind: 'saved', version: this.versions.length, text: this.text };
    const base = this.versions[version - 1] ?? '';
    const made = mergeEdits({ base, theirs: this.text }, edits);
    if ('conflicts' in made)
      return { kind: 'conflict', version: this.versions.length, text: this.text, conflicts: made.conflicts };
    if ('findings' in made) return { kind: 'refused', why: 'findings' };
    this.versions.push(made.text);
    this.batches.set(batch, this.versions.length);
    return { kind: 'saved', version: this.versions.length, text: made.text };
  }
}

let service: Service;
let kept: Map<string, Unsaved>;
let calls: (() => void)[];
let batch = 0;
let sessions: Session[];
const ports = (more: Partial<SessionPorts> = {}): SessionPorts => ({
  engine,
  server: service,
  kept: {
    read: async id => structuredClone(kept.get(id)),
    write: async unsaved => void kept.set(unsaved.id, structuredClone(unsaved)),
    erase: async id => void kept.delete(id),
  },
  newBatch: () => `batch-${++batch}`,
  later(call) {
    calls.push(call);
    return () => {
      calls = calls.filter(one => one !== call);
    };
  },
  changed: () => undefined,
  ...more,
});
beforeEach(() => {
  service = new Service();
  [kept, calls, sessions] = [new Map(), [], []];
});
afterEach(() => {
  for (const one of sessions) one.end();
});

async function opened(more: Partial<SessionPorts> = {}): Promise<Session> {
  const session = await Session.open('d', ports(more));
  if (!(session instanceof Session)) throw new Error(session.kind);
  sessions.push(session);
  await settle();
  return session;
}

/** Lets everything that waits go on, until nothing does. */
async function settle(rounds = 50): Promise<void> {
  for (let i = 0; i < rounds; i += 1) {
    await new Promise(resolve => setTimeout(resolve, 0));
    const due = calls;
    calls = [];
    for (const call of due) call();
  }
}
const said = (text: string) => parse(text) as Record<string, never> & { events: Record<string, string>[] };
const event = (at: string, device: string) => ({
  ...{ path: 'events', insert: 'end' as const },
  value: { at, do: 'in', device },
});

describe('a draft on the page', () => {
  it('is changed at once and saved after it, comments and order kept', async () => {
    const session = await opened();
    await session.edit([event('08:40', 'sheath1')]);
    expect(said(session.view().text).events).toHaveLength(2);
    expect(service.versions).toHaveLength(1);
    await settle();
    expect(service.text).toBe(session.view().text);
    expect(service.text).toContain('# typed by hand');
    expect(service.text).toContain('# first');
    expect([session.view().saving.kind, session.view().version, kept.size]).toEqual(['saved', 2, 0]);
  });

  it('is undone and done again without end, to the byte', async () => {
    const session = await opened();
    const texts = [session.view().text];
    for (let i = 0; i < 20; i += 1) {
      await session.edit(
        i % 3 === 2 ? [{ path: 'patient.name', value: `Ada ${i}` }] : [event(`09:${10 + i}`, `d${i}`)],
      );
      texts.push(session.view().text);
      if (i % 7 === 0) await settle(6);
    }
    for (const text of texts.slice(0, -1).reverse()) {
      expect(await session.undo()).toBeUndefined();
      expect(session.view().text).toBe(text);
    }
    expect([session.view().canUndo, session.view().canRedo]).toEqual([false, true]);
    for (const text of texts.slice(1)) {
      await session.redo();
      expect(session.view().text).toBe(text);
    }
    await settle();
    expect(service.text).toBe(texts.at(-1));
  });

  it('takes touches that are ahead of what the page shows, the later one meant', async () => {
    const session = await opened();
    const seen = session.view().text;
    await session.edit([{ path: 'drugs', value: [{}] }], seen);
    const begun = session.view().text;
    // Each for the text with the empty entry: the page shows no other yet.
    for (const [name, value] of [
      ['drug', 'lidocaine'],
      ['route', 'oral'],
      ['route', 'local infiltration'],
    ] as const)
      expect(await session.edit([{ path: `drugs[0].${name}`, value }], begun)).toBeUndefined();
    const text = session.view().text;
    expect((parse(text) as { drugs: unknown }).drugs).toEqual([
      { drug: 'lidocaine', route: 'local infiltration' },
    ]);
    await session.undo();
    expect(session.view().text).toContain('oral');
    await session.undo();
    await session.undo();
    expect(session.view().text).toBe(begun);
    for (let i = 0; i < 3; i += 1) await session.redo();
    expect(session.view().text).toBe(text);
    await settle();
    expect(service.text).toBe(text);
  });

  it('puts nothing into another entry than the one that was touched', async () => {
    const session = await opened();
    await session.edit([event('08:40', 'sheath1')]);
    const seen = session.view().text;
    await session.edit([{ path: 'events[0]', remove: true }], seen);
    // Ahead of the page again: the first is the one that is gone, the second is first now.
    expect(await session.edit([{ path: 'events[0].at', value: '08:31' }], seen)).toBeDefined();
    expect(await session.edit([{ path: 'events[1].at', value: '08:41' }], seen)).toBeUndefined();
    expect(said(session.view().text).events).toEqual([{ at: '08:41', do: 'in', device: 'sheath1' }]);
  });

  it('does not set over what others set meanwhile', async () => {
    const session = await opened();
    const seen = session.view().text;
    service.others([{ path: 'patient.name', value: 'Ada Q.' }]);
    session.look();
    await settle();
    expect(await session.edit([{ path: 'patient.name', value: 'A. Quintanar' }], seen)).toBeDefined();
    expect(session.view().text).toContain('Ada Q.');
  });

  it('does not undo what others did', async () => {
    const session = await opened();
    await session.edit([event('08:40', 'sheath1')]);
    await settle();
    // In front of it: its place is another now.
    service.others([{ path: 'events', insert: 0, value: { at: '08:20', do: 'in', device: 'needle1' } }]);
    session.look();
    await settle();
    await session.undo();
    await settle();
    expect(said(service.text).events.map(({ device }) => device)).toEqual(['needle1', 'wire1']);
  });

  it('takes taps while the service is slow, and sends what they come to', async () => {
    const session = await opened();
    let open: () => void = () => undefined;
    service.gate = new Promise(resolve => (open = resolve));
    await session.edit([event('08:40', 'a')]);
    await settle(5);
    for (const device of ['b', 'c', 'd']) await session.edit([event('08:41', device)]);
    service.others([{ path: 'case.id', value: 'C-2' }]);
    open();
    await settle();
    expect(said(service.text)).toMatchObject({ case: { id: 'C-2' } });
    expect(said(service.text).events.map(({ device }) => device)).toEqual(['wire1', 'a', 'b', 'c', 'd']);
    expect(session.view().text).toBe(service.text);
    expect(service.saves).toBe(2);
  });
});

describe('a service that is away', () => {
  it('is worked without, and caught up with; an answer that was lost doubles nothing', async () => {
    const session = await opened();
    service.meets = ['away', 'lost answer', 'away'];
    for (const device of ['a', 'b', 'c']) {
      await session.edit([event('08:40', device)]);
      await settle(3);
    }
    await settle();
    expect(said(service.text).events.map(({ device }) => device)).toEqual(['wire1', 'a', 'b', 'c']);
    expect([session.view().text, session.view().saving.kind]).toEqual([service.text, 'saved']);
  });

  it('loses nothing when the tab is closed, whatever was on its way', async () => {
    for (const met of ['away', 'lost answer'] as const) {
      service = new Service();
      const session = await opened();
      service.meets = [met];
      await session.edit([event('08:40', 'a')]);
      await settle(3);
      await session.edit([event('08:41', 'b')]);
      await settle(0);
      session.end();
      service.meets = [];
      service.others([{ path: 'case.id', value: 'C-2' }]);
      const again = await opened();
      await settle();
      expect(said(again.view().text).events.map(({ device }) => device)).toEqual(['wire1', 'a', 'b']);
      expect(said(service.text)).toMatchObject({ case: { id: 'C-2' } });
      expect([service.text, kept.size]).toEqual([again.view().text, 0]);
      again.end();
    }
  });

  it('opens what is kept here while there is no answer at all', async () => {
    const session = await opened();
    service.meets = ['away', 'away', 'away', 'away', 'away', 'away', 'away', 'away'];
    await session.edit([event('08:40', 'a')]);
    await settle(2);
    session.end();
    const again = await opened();
    expect(said(again.view().text).events).toHaveLength(2);
    service.meets = [];
    again.retry();
    await settle();
    expect(said(service.text).events).toHaveLength(2);
  });

  it('that knows nobody, or refuses, is told, and everything stays here', async () => {
    for (const met of ['nobody', 'refused'] as const) {
      service = new Service();
      const session = await opened();
      service.meets = [met];
      await session.edit([event('08:40', 'a')]);
      await settle();
      expect([met, session.view().saving.kind]).toEqual([met, met]);
      expect(kept.get('d')?.text).toBe(session.view().text);
      session.retry();
      await settle();
      expect([session.view().saving.kind, service.text]).toEqual(['saved', session.view().text]);
      session.end();
    }
  });

  it('has closed the draft meanwhile: nothing is changed any more, and what was entered is still shown', async () => {
    const session = await opened();
    service.meets = ['closed'];
    service.state = 'signed';
    await session.edit([event('08:40', 'a')]);
    await settle();
    expect([session.view().state, session.view().saving.kind]).toEqual(['signed', 'closed']);
    expect(said(session.view().text).events).toHaveLength(2);
    expect(await session.edit([event('08:41', 'b')])).toEqual([]);
    expect(said(session.view().text).events).toHaveLength(2);
  });
});

describe('two people', () => {
  it('who set one field differently choose, field by field', async () => {
    for (const [mine, name] of [
      [true, 'Ada Mine'],
      [false, 'Ada Theirs'],
    ] as const) {
      service = new Service();
      const session = await opened();
      service.others([{ path: 'patient.name', value: 'Ada Theirs' }]);
      await session.edit([{ path: 'patient.name', value: 'Ada Mine' }, event('08:40', 'a')]);
      await settle();
      const { saving } = session.view();
      expect(saving).toMatchObject({
        kind: 'conflict',
        conflicts: [{ path: 'patient.name', base: 'Ada Quintanar', theirs: 'Ada Theirs', mine: 'Ada Mine' }],
      });
      await session.edit([event('08:41', 'b')]);
      await session.settle(new Set(mine ? ['patient.name'] : []));
      await settle();
      expect(said(service.text)).toMatchObject({ patient: { name } });
      expect(said(service.text).events.map(({ device }) => device)).toEqual(['wire1', 'a', 'b']);
      expect([session.view().saving.kind, session.view().text]).toEqual(['saved', service.text]);
      session.end();
    }
  });

  it('on one draft, at random, end with the same text, and nobody loses an event', async () => {
    const [ada, ben] = [await opened(), await opened({ kept: ports({}).kept })];
    let seed = 7;
    const random = (n: number) => {
      seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
      return seed % n;
    };
    const made: string[] = [];
    for (let i = 0; i < 60; i += 1) {
      const who = random(2) === 0 ? ada : ben;
      const device = `d${i}`;
      made.push(device);
      await who.edit([event(`1${random(10)}:${10 + random(50)}`, device)]);
      if (random(3) === 0) service.meets.push('lost answer');
      if (random(2) === 0) await settle(random(4));
      if (random(4) === 0) who.look();
    }
    service.meets = [];
    for (let i = 0; i < 4; i += 1) {
      ada.look();
      ben.look();
      await settle();
    }
    const devices = said(service.text).events.map(({ device }) => device ?? '');
    expect(devices.filter(device => device !== 'wire1').sort()).toEqual(made.sort());
    expect([ada.view().text, ben.view().text]).toEqual([service.text, service.text]);
  });
});
