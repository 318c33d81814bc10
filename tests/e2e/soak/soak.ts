import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { type HostileServer, type Mode, startHostile } from '../../support/hostile/server.js';

/** How large a soak is. */
export interface SoakPlan {
  readonly cases: number;
  readonly patients: number;
  readonly seed: number;
  readonly onProgress?: (delivered: number) => void;
}

/** What a soak came to. */
export interface SoakResult {
  /** Cases times destinations. */
  readonly items: number;
  readonly delivered: number;
  readonly parked: number;
  /** Cases that a server does not hold whole. */
  readonly losses: number;
  /** Identifiers that stand at a server more than once. */
  readonly doubles: number;
  /** Cases that came to a server before an earlier one of the same patient. */
  readonly outOfOrder: number;
  /** Requests that met a fault. */
  readonly faults: number;
  readonly seconds: number;
  /** Bytes held after a collection, early (median of the second quarter) and late (median of the last one). */
  readonly heldEarly: number;
  readonly heldLate: number;
  readonly rssLargest: number;
}

/** What the third server does to every other transaction; each is a fault that must pass by itself. */
const FAULTS: readonly Mode[] = [
  'commits, then drops the connection',
  'drops the connection before it commits',
  'commits, then answers 504 in HTML',
  'commits, then sends half the answer',
  'commits, then answers 500',
  'commits, answers 200 with nothing',
  'answers 409 although it exists',
  'answers in the wrong order',
];

const WORKER = fileURLToPath(new URL('./worker.ts', import.meta.url));
const DESTINATIONS = 3;

/** Runs many small cases through one outbox to three servers, of which one fails half the time. */
export async function soak({ cases, patients, seed, onProgress }: SoakPlan): Promise<SoakResult> {
  const folder = mkdtempSync(join(tmpdir(), 'soak-'));
  const servers = await Promise.all(Array.from({ length: DESTINATIONS }, startHostile));
  const failing = servers[DESTINATIONS - 1];
  // More than the server will be asked: it fails to the end.
  failing?.plan(...faultPlan(cases * 6, seed));
  const started = Date.now();
  try {
    const samples: { delivered: number; held: number; rss: number }[] = [];
    let end: { delivered: number; parked: number } | undefined;
    const args = ['--expose-gc', '--import', 'tsx', WORKER, '--db', join(folder, 'outbox.db')];
    const sizes = ['--cases', String(cases), '--patients', String(patients)];
    const child = spawn(
      process.execPath,
      [...args, ...sizes, '--servers', servers.map(s => s.baseUrl).join(',')],
      {
        stdio: ['ignore', 'pipe', 'inherit'],
      },
    );
    const ended = new Promise<void>((resolve, reject) => {
      child.once('error', reject);
      child.once('close', () => resolve());
    });
    for await (const line of createInterface({ input: child.stdout })) {
      const told = JSON.parse(line);
      if (told.done) end = told;
      else {
        samples.push(told);
        onProgress?.(told.delivered);
      }
    }
    await ended;
    if (!end) throw new Error('the worker did not come to an end');
    const quarter = samples.length / 4;
    const held = (from: number, to: number) =>
      median(samples.slice(Math.floor(from * quarter), Math.ceil(to * quarter)).map(s => s.held));
    return {
      items: cases * DESTINATIONS,
      delivered: end.delivered,
      parked: end.parked,
      losses: sum(servers.map(server => lost(server, cases, patients))),
      doubles: sum(servers.map(server => server.store.doubles().length)),
      outOfOrder: sum(servers.map(outOfOrder)),
      faults: failing ? failing.requests.filter(r => r.startsWith('POST')).length >> 1 : 0,
      seconds: (Date.now() - started) / 1000,
      heldEarly: held(1, 2),
      heldLate: held(3, 4),
      rssLargest: Math.max(...samples.map(s => s.rss)),
    };
  } finally {
    await Promise.all(servers.map(server => server.close()));
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Every other transaction meets a fault; which one follows from the seed. */
function faultPlan(length: number, seed: number): Mode[] {
  return Array.from({ length }, (_, i) =>
    i % 2 === 0
      ? 'obedient'
      : (FAULTS[(Math.imul(i + seed, 2_654_435_761) >>> 8) % FAULTS.length] ?? 'obedient'),
  );
}

const numberOf = (resource: object, part: string): string | undefined => {
  const [identifier] = Reflect.get(resource, 'identifier') ?? [];
  const value: unknown = identifier?.value;
  return typeof value === 'string' && value.endsWith(`-${part}`)
    ? value.slice(0, -part.length - 1)
    : undefined;
};

/** Cases of which one of the four resources is missing. */
function lost({ store }: HostileServer, cases: number, patients: number): number {
  const there = new Map<string, number>();
  for (const resource of store.resources)
    for (const part of ['patient', 'procedure', 'drain', 'dose']) {
      const key = numberOf(resource, part);
      if (key !== undefined) there.set(key, (there.get(key) ?? 0) + 1);
    }
  const wanted = Array.from({ length: cases }, (_, i) => `p${i % patients}.${Math.floor(i / patients)}`);
  return wanted.filter(key => (there.get(key) ?? 0) < 4).length;
}

/** The store keeps resources in the order in which they were committed. */
function outOfOrder({ store }: HostileServer): number {
  const last = new Map<string, number>();
  let wrong = 0;
  for (const resource of store.resources) {
    const [patient = '', number = ''] = numberOf(resource, 'procedure')?.split('.') ?? [];
    if (number === '') continue;
    if (Number(number) !== (last.get(patient) ?? -1) + 1) wrong += 1;
    last.set(patient, Number(number));
  }
  return wrong;
}

const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);

function median(numbers: readonly number[]): number {
  return [...numbers].sort((a, b) => a - b)[numbers.length >> 1] ?? 0;
}
