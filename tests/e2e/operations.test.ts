import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { run } from '../../src/cli/program.js';
import { MemoryOutbox } from '../../src/delivery/outbox/memory-outbox.js';
import { logEvent } from '../../src/delivery/telemetry/log.js';
import { deliveryMetrics } from '../../src/delivery/telemetry/metrics.js';
import type { RequestEvent } from '../../src/service/api/app.js';
import { serviceMetrics } from '../../src/service/metrics.js';
import { parseSite } from '../../src/site/parse.js';
import { rights } from '../../src/site/service.js';

/* The files for running it, held against the program and against the tools that read them where the machine has these. */

const root = join(import.meta.dirname, '..', '..');
const folder = join(root, 'examples', 'operations');
const text = (name: string) => readFileSync(join(folder, name), 'utf8');
const scratch = mkdtempSync(join(tmpdir(), 'operations-'));
afterAll(() => rmSync(scratch, { recursive: true }));
const units = readdirSync(folder).filter(name => name.endsWith('.service'));
const page = readFileSync(join(root, 'docs', 'operations.md'), 'utf8');

const has = (program: string) =>
  (process.env['PATH'] ?? '').split(':').some(place => existsSync(join(place, program)));
/** A test by a tool of the system; says that it was left out where the tool is not there. */
const withTool = (program: string, what: string, work: () => void) =>
  it(has(program) ? what : `SKIPPED, there is no ${program} here: ${what}`, context => {
    if (has(program)) work();
    else context.skip();
  });

interface Rule {
  readonly alert: string;
  readonly expr: string;
  readonly annotations: Readonly<Record<string, string>>;
}
const rules: Rule[] = parse(text('alerts.yml')).groups.flatMap((group: { rules: Rule[] }) => group.rules);

/** Names and labels of the figures, as a worker and a service give them once each of them has a value. */
async function figures(): Promise<Map<string, Set<string>>> {
  const request: RequestEvent = {
    ...{ request: 'r', method: 'POST', route: '/cases', status: 503, durationMs: 1 },
  };
  const state = { threads: 1, busy: 0, waiting: 0, replaced: 2, failedStarts: 0 };
  const service = serviceMetrics({ state });
  service.observe(request);
  const outbox = new MemoryOutbox(() => 'item');
  await outbox.put({ destination: 'd', caseKey: 'c', patientKey: 'p', payload: '{}', digest: 'x' }, 1);
  const worker = deliveryMetrics(outbox, () => 2);
  const made = { requestId: 'r', status: 401, state: 'refused', reason: 'unauthorised', durationMs: 1 };
  worker.observe({
    ...{ item: 'i', destination: 'd', came: 'again', reason: 'unauthorised', attempts: 1, durationMs: 1 },
    requests: [made],
  });
  const found = new Map<string, Set<string>>([['up', new Set(['job'])]]);
  for (const line of [await service.text(), await worker.text()].join('\n').split('\n')) {
    const [, name, labels = ''] = /^([a-z_]\w*)(?:\{([^}]*)\})? /i.exec(line) ?? [];
    if (name === undefined) continue;
    const known = found.get(name) ?? new Set(['job', 'instance']);
    for (const [, label = ''] of labels.matchAll(/(\w+)="/g)) known.add(label);
    found.set(name, known);
  }
  return found;
}

describe('alerts', () => {
  it('name figures and labels that service and worker give, and say what to do', async () => {
    const known = await figures();
    expect(rules.length).toBeGreaterThan(8);
    for (const { alert, expr, annotations } of rules) {
      const used = [...expr.matchAll(/\b((?:casetally|nodejs|process)_\w+|up)\b(?:\{([^}]*)\})?/g)];
      expect([alert, used.length]).toEqual([alert, 1]);
      const [[, name = '', labels = ''] = []] = used;
      const own = known.get(name);
      expect([alert, name, own !== undefined]).toEqual([alert, name, true]);
      for (const [, label = ''] of labels.matchAll(/(\w+)=/g)) expect(own).toContain(label);
      for (const [, label = ''] of Object.values(annotations)
        .join(' ')
        .matchAll(/\$labels\.(\w+)/g))
        expect(own).toContain(label);
      expect(Object.keys(annotations)).toEqual(['summary', 'action']);
    }
  });

  withTool('promtool', 'are rules that Prometheus reads', () => {
    const said = execFileSync('promtool', ['check', 'rules', join(folder, 'alerts.yml')], {
      encoding: 'utf8',
    });
    expect(said).toContain(`SUCCESS: ${rules.length} rules found`);
  });
});

describe('units', () => {
  it('are two, of one user and one folder, and differ in what they start', () => {
    expect(units).toEqual(['casetally-worker.service', 'casetally.service']);
    const settings = (name: string): string[] => [...(text(name).match(/^[A-Z]\w+=.*$/gm) ?? [])];
    const [a = [], b = []] = units.map(settings);
    const differ = a.filter(line => !b.includes(line)).map(line => line.replace(/=.*/, ''));
    expect(differ).toEqual(['Description', 'ExecStart', 'MemoryMax']);
  });

  withTool('systemd-analyze', 'are accepted by systemd, and open to little', () => {
    for (const name of units) {
      // Its program is not installed on every machine that runs the tests.
      const copy = join(scratch, name);
      writeFileSync(copy, text(name).replace('/usr/bin/casetally', '/bin/true'));
      const analyze = (...args: string[]) =>
        execFileSync('systemd-analyze', [...args, copy], {
          encoding: 'utf8',
          stdio: ['ignore', 'pipe', 'pipe'],
        });
      expect(analyze('verify', '--man=no')).toBe('');
      const [, exposure] =
        /exposure level for \S+: ([\d.]+)/.exec(analyze('security', '--offline=true')) ?? [];
      expect(Number(exposure)).toBeLessThan(2.5);
    }
  });
});

describe('commands in units, containers and alerts', () => {
  const lines = [
    ...units.flatMap(name =>
      [...text(name).matchAll(/^ExecStart=\/usr\/bin\/casetally (.*)$/gm)].map(([, l = '']) => l),
    ),
    ...Object.values(parse(text('compose.yaml')).services as Record<string, { command?: string[] }>).flatMap(
      ({ command }) => (command ? [command.join(' ')] : []),
    ),
    ...[...text('Dockerfile').matchAll(/^CMD (\[.*\])$/gm)].map(([, list = '[]']) =>
      (JSON.parse(list) as string[]).join(' '),
    ),
    ...rules.flatMap(({ annotations }) =>
      [...(annotations['action'] ?? '').matchAll(/casetally ((?:doctor|outbox \w+)(?: --[\w-]+)*)/g)].map(
        ([, l = '']) => l,
      ),
    ),
  ];

  it.each([...new Set(lines)])('casetally %s has these options', async line => {
    const words = line.split(' ');
    const command = words.slice(0, words[0] === 'outbox' ? 2 : 1);
    const said: string[] = [];
    const output = { out: (t: string) => void said.push(t), err: () => undefined, color: false };
    expect(await run([...command, '--help'], output)).toBe(0);
    const help = said.join('');
    for (const flag of words.filter(word => word.startsWith('--'))) expect(help).toContain(`${flag} `);
  });

  it('finds them', () => {
    expect(lines.length).toBeGreaterThan(8);
  });
});

describe('containers', () => {
  it('have a configuration that can be used, with every secret that it and the service refer to', () => {
    const compose = parse(text('compose.yaml'), { merge: true });
    const { site, findings } = parseSite(text('site.yaml'));
    expect(findings).toEqual([]);
    expect(site?.service.token).toBe('file:/run/secrets/service-token');
    const { services, secrets } = compose as {
      services: Record<string, { secrets?: string[]; image?: string; volumes?: string[] }>;
      secrets: Record<string, unknown>;
    };
    expect(Object.keys(services)).toEqual(['service', 'worker', 'database', 'fhir']);
    for (const { secrets: own = [] } of Object.values(services))
      for (const name of own) expect(secrets).toHaveProperty(name);
    expect(services['service']?.secrets).toContain('service-token');
    expect(services['service']?.volumes).toEqual(['./site.yaml:/etc/casetally/site.yaml:ro']);
    const address = new URL(site?.destinations['records']?.url ?? '');
    expect(services).toHaveProperty(address.hostname);
  });

  withTool('sh', 'the entry point hands secrets and arguments on', () => {
    const { entrypoint } = parse(text('compose.yaml'))['x-casetally'] as { entrypoint: string[] };
    // As compose reads it: a doubled dollar is one.
    const [shell = '', flags = '', script = '', name = ''] = entrypoint.map(part =>
      part.replaceAll('$$', '$'),
    );
    for (const secret of ['outbox-key', 'database-password'])
      writeFileSync(join(scratch, secret), `of ${secret}\n`);
    const program = join(scratch, 'casetally');
    writeFileSync(program, '#!/bin/sh\necho "$CASETALLY_OUTBOX_KEY, $PGPASSWORD, $*"\n', { mode: 0o755 });
    const said = execFileSync(
      ...([
        shell,
        [flags, script.replaceAll('/run/secrets', scratch), name, 'serve', '--port', '1'],
      ] as const),
      { encoding: 'utf8', env: { PATH: `${scratch}:${process.env['PATH']}` } },
    );
    expect(said).toBe('of outbox-key, of database-password, serve --port 1\n');
  });
});

describe('the page about operations', () => {
  it('names every field of the log, every right and every file', async () => {
    const request: Required<RequestEvent> = {
      ...{
        request: '',
        by: '',
        method: '',
        route: '',
        items: [],
        drafts: [],
        person: '',
        status: 1,
        durationMs: 1,
      },
      left: true,
      audit: '1:0',
    };
    const worker = new Set<string>();
    const log = { debug: note, info: note, warn: note, error: note };
    function note(fields: object) {
      for (const field of Object.keys(fields)) worker.add(field);
    }
    logEvent(log as never, {
      ...{ item: 'i', destination: 'd', came: 'again', reason: 'x', attempts: 1, durationMs: 1 },
      requests: [{ requestId: 'r', status: 1, state: 's', reason: 'x', durationMs: 1 }],
    });
    expect(worker.size).toBeGreaterThan(6);
    for (const field of ['at', ...Object.keys(request), 'level', 'time', 'msg', ...worker])
      expect(page).toContain(`\`${field}\``);
    for (const right of rights) expect(page).toContain(`\`${right}\``);
    for (const name of readdirSync(folder)) expect(page).toContain(`examples/operations/${name}`);
    for (const name of (await figures()).keys())
      if (name.startsWith('casetally_')) expect(page).toContain(name.replace(/_(?:bucket|sum|count)$/, ''));
  });
});
