import { mkdtempSync, rmSync } from 'node:fs';
import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { AuditFact } from '../../../src/audit/event.js';
import type { AuditTrail } from '../../../src/audit/trail.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import { storeFault } from '../../../src/delivery/outbox/store-faults.js';
import { openSqliteDrafts } from '../../../src/drafts/store/open.js';
import { type AppOptions, createServiceApp, type RequestEvent } from '../../../src/service/api/app.js';
import { DraftChanges } from '../../../src/service/api/draft-changes.js';
import type { ServicePorts } from '../../../src/service/api/handlers.js';
import { loadPage } from '../../../src/service/api/page.js';

/** What of a trail the service uses: what was written, in memory, until its disk is full. */
export class MemoryTrail {
  readonly facts: AuditFact[] = [];
  /** Entries after which there is no room. */
  most = Number.POSITIVE_INFINITY;

  async append(fact: AuditFact) {
    if (this.facts.length >= this.most) throw storeFault('outbox-full', 'a place');
    this.facts.push(fact);
    return { n: this.facts.length, digest: '0'.repeat(64) };
  }
}

export interface TestService {
  readonly base: string;
  readonly outbox: MemoryOutbox;
  readonly trail: MemoryTrail;
  readonly log: RequestEvent[];
  stop(): Promise<unknown>;
}

/** A server whose answers are decided once its address is known. */
export async function listening(
  make: (base: string) => RequestListener,
): Promise<{ base: string; server: Server; stop: () => Promise<unknown> }> {
  let handler: RequestListener = (_request, response) => void response.end();
  const server = createServer((request, response) => handler(request, response));
  await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve));
  const base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  handler = make(base);
  const stop = () => {
    server.closeAllConnections();
    return new Promise(resolve => server.close(resolve));
  };
  return { base, server, stop };
}

/** The service without threads, at a clock, with two items in its outbox; what needs a case worked out is answered 500. */
export async function startTestService(
  options: (base: string) => Partial<AppOptions>,
  clock: () => number = () => Date.now(),
): Promise<TestService> {
  const outbox = new MemoryOutbox(() => `item-${Math.random()}`);
  for (const key of ['a', 'b'])
    await outbox.put({ destination: 'd', caseKey: key, patientKey: key, payload: '{}', digest: key }, 1);
  const trail = new MemoryTrail();
  const log: RequestEvent[] = [];
  const cases = { state: { failedStarts: 0 }, busy: () => undefined };
  const folder = mkdtempSync(join(tmpdir(), 'service-'));
  const store = await openSqliteDrafts(join(folder, 'drafts.db'), { sealing: unsealed });
  const drafts = { store, changes: new DraftChanges(store) };
  const site = { site: {} };
  const ports = { outbox, cases, clock, drafts, site, softwareVersion: '1.2.3' } as unknown as ServicePorts;
  const { base, stop } = await listening(at =>
    createServiceApp(ports, {
      ...{ tokens: [], maxBytes: 10_000, clock, page: loadPage('en-GB') },
      audit: trail as unknown as AuditTrail,
      onRequest: event => void log.push(event),
      ...options(at),
    }),
  );
  return {
    ...{ base, outbox, trail, log },
    async stop() {
      drafts.changes.close();
      await stop();
      await store.close();
      rmSync(folder, { recursive: true });
    },
  };
}
