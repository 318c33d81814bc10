import type {
  Checked,
  Chosen,
  Depth,
  Gate,
  ItemFilter,
  ItemState,
  Lease,
  NewItem,
  Outbox,
  OutboxItem,
  Parked,
  Settlement,
} from './outbox.js';
import { byPerson, type Change, holdsUp, isSame, openGate, settled, settledAt } from './rules.js';

interface Row {
  item: OutboxItem;
  fence: number;
  leaseUntil: number;
}

/** An outbox that forgets everything when the process ends: for tests and for trying out. */
export class MemoryOutbox implements Outbox {
  readonly #rows: Row[] = [];
  readonly #gates = new Map<string, Gate>();
  readonly #newId: () => string;
  #last = 0;

  constructor(newId: () => string) {
    this.#newId = newId;
  }

  async put(item: NewItem, now: number): Promise<OutboxItem> {
    const newest = this.#rows.findLast(
      ({ item: i }) =>
        i.destination === item.destination && i.caseKey === item.caseKey && i.state !== 'discarded',
    );
    if (newest && isSame(newest.item, item)) return newest.item;
    this.#last += 1;
    const made: OutboxItem = {
      ...item,
      id: this.#newId(),
      sequence: this.#last,
      state: 'waiting',
      createdAt: now,
      notBefore: now,
      attempts: 0,
    };
    this.#rows.push({ item: made, fence: 0, leaseUntil: 0 });
    return made;
  }

  async claim(destination: string, now: number, leaseMs: number): Promise<Lease | undefined> {
    const row = this.#rows.find(r => r.item.destination === destination && this.#isClaimable(r, now));
    if (!row) return undefined;
    const { item, leaseUntil } = row;
    const since = item.unknownSince;
    row.item = {
      ...item,
      state: 'sending',
      ...(since !== undefined && item.state === 'sending' && { unknownSince: Math.max(since, leaseUntil) }),
    };
    row.fence += 1;
    row.leaseUntil = now + leaseMs;
    return { item: row.item, fence: row.fence, until: row.leaseUntil };
  }

  #isClaimable({ item }: Row, now: number): boolean {
    const { destination, patientKey, sequence, state, notBefore } = item;
    if (state === 'waiting' ? notBefore > now : state !== 'sending') return false;
    if (this.#isBlocked(item)) return false;
    // One whose lease runs is of the same patient as itself.
    return !this.#rows.some(({ item: other, leaseUntil: until }) => {
      if (other.destination !== destination || other.patientKey !== patientKey) return false;
      if (other.state === 'sending' && until > now) return true;
      // An earlier one whose lease has run out is claimed first.
      return other.state === 'waiting' && other.sequence < sequence && !this.#isBlocked(other);
    });
  }

  /** True when an earlier item of the same case is parked. */
  #isBlocked(item: OutboxItem): boolean {
    return this.#rows.some(row => holdsUp(row.item, item));
  }

  async begin(lease: Lease, now: number): Promise<boolean> {
    const row = this.#held(lease, now);
    if (row) row.item = { ...row.item, attempts: row.item.attempts + 1, unknownSince: now };
    return row !== undefined;
  }

  async extend(lease: Lease, until: number, now: number): Promise<boolean> {
    const row = this.#held(lease, now);
    if (row) row.leaseUntil = until;
    return row !== undefined;
  }

  async settle(lease: Lease, settlement: Settlement, now: number): Promise<boolean> {
    return change(this.#held(lease, now), settled(settlement, now));
  }

  async retry(id: string, now: number, chosen?: Chosen): Promise<boolean> {
    return change(this.#in(id, byPerson.retry.from), byPerson.retry.change(now, chosen));
  }

  async park(id: string, parked: Parked): Promise<boolean> {
    return change(this.#in(id, byPerson.park.from), byPerson.park.change(parked));
  }

  async discard(id: string, parked: Parked): Promise<boolean> {
    return change(this.#in(id, byPerson.discard.from), byPerson.discard.change(parked));
  }

  async get(id: string): Promise<OutboxItem | undefined> {
    return this.#rows.find(({ item }) => item.id === id)?.item;
  }

  async list({ destination, caseKey, patientKey, states, limit }: ItemFilter = {}): Promise<OutboxItem[]> {
    return this.#rows
      .map(({ item }) => item)
      .filter(item => destination === undefined || item.destination === destination)
      .filter(item => caseKey === undefined || item.caseKey === caseKey)
      .filter(item => patientKey === undefined || item.patientKey === patientKey)
      .filter(item => states === undefined || states.includes(item.state))
      .slice(0, limit);
  }

  async idsOf(state: ItemState): Promise<string[]> {
    return this.#rows.flatMap(({ item }) => (item.state === state ? [item.id] : []));
  }

  async depths(): Promise<Depth[]> {
    const names = [...new Set(this.#rows.map(({ item }) => item.destination))].sort();
    return names.map(destination => {
      const items = this.#rows.map(({ item }) => item).filter(item => item.destination === destination);
      const count = (state: ItemState) => items.filter(item => item.state === state).length;
      const open = items.filter(({ state }) => state !== 'delivered' && state !== 'discarded');
      return {
        destination,
        waiting: count('waiting'),
        sending: count('sending'),
        parked: count('parked'),
        delivered: count('delivered'),
        unknown: open.filter(i => i.state !== 'parked' && i.unknownSince !== undefined).length,
        ...(open.length > 0 && { oldest: Math.min(...open.map(i => i.createdAt)) }),
      };
    });
  }

  async nextDue(destinations: readonly string[]): Promise<number | undefined> {
    const due = this.#rows
      .filter(({ item }) => destinations.includes(item.destination))
      .flatMap(({ item, leaseUntil }) =>
        item.state === 'waiting' ? [item.notBefore] : item.state === 'sending' ? [leaseUntil] : [],
      );
    return due.length > 0 ? Math.min(...due) : undefined;
  }

  async gate(destination: string): Promise<Gate> {
    return this.#gates.get(destination) ?? openGate(destination);
  }

  async changeGate(destination: string, change: (gate: Gate) => Gate): Promise<void> {
    this.#gates.set(destination, change(this.#gates.get(destination) ?? openGate(destination)));
  }

  async purge(before: number): Promise<number> {
    const kept = this.#rows.filter(({ item }) => (settledAt(item) ?? before) >= before);
    const gone = this.#rows.length - kept.length;
    this.#rows.splice(0, this.#rows.length, ...kept);
    return gone;
  }

  /** Memory is not sealed. */
  async rekey(): Promise<number> {
    return 0;
  }

  async check(): Promise<Checked> {
    return { store: [], items: this.#rows.map(({ item }) => ({ id: item.id, item })) };
  }

  async close(): Promise<void> {
    this.#rows.length = 0;
  }

  #held({ item, fence }: Lease, now: number): Row | undefined {
    return this.#rows.find(
      r => r.item.id === item.id && r.item.state === 'sending' && r.fence === fence && r.leaseUntil > now,
    );
  }

  #in(id: string, states: readonly ItemState[]): Row | undefined {
    return this.#rows.find(r => r.item.id === id && states.includes(r.item.state));
  }
}

function change(row: Row | undefined, made: Change): boolean {
  if (!row) return false;
  const { unknownSince: before, parked: was, ...item } = row.item;
  const { unknownSince = before, parked = was, ...rest } = made;
  row.item = {
    ...item,
    ...rest,
    ...(typeof unknownSince === 'number' && { unknownSince }),
    ...(parked && { parked }),
  };
  return true;
}
