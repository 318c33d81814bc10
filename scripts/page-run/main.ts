/**
 * Examples, one of them also from nothing, entered at the case page by a hand that counts: from the order of an embedded
 * FHIR server, with a scanner and the dictation of the tablet, to the receipt.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'yaml';
import { startSandbox } from '../../src/service/sandbox/server.js';
import { chromium, openTab } from '../../tests/support/browser.js';
import { program } from '../../tests/support/built.js';
import { startServe } from '../../tests/support/serve.js';
import { type Group, group, list, pick, without } from './data.js';
import { type DoseFile, doseOf } from './dose.js';
import { secondsOf } from './hand.js';
import { enterCase, type Outcome } from './run.js';
import { caseBefore, catalogueOf, kitOf, orderOf } from './sources.js';

const root = join(import.meta.dirname, '..', '..');

/** An example as if its case were today: every day near that of the case is as far from today. */
function example(name: string): Group {
  const text = readFileSync(join(root, 'examples', `${name}.yaml`), 'utf8');
  const dayOf = (date: string) => Date.parse(date) / 86_400_000;
  const then = dayOf(/^ {2}date: (\S+)/m.exec(text)?.[1] ?? '');
  const today = Math.floor(Date.now() / 86_400_000);
  const moved = text.replace(/\b\d{4}-\d\d-\d\d\b/g, date => {
    const far = dayOf(date) - then;
    return Math.abs(far) > 400 ? date : new Date((today + far) * 86_400_000).toISOString().slice(0, 10);
  });
  return parse(moved, { schema: 'failsafe' }) as Group;
}

const cases = {
  stent: example('ureteric-stent-tumour'),
  abscess: example('abscess-drain'),
  biopsy: example('liver-biopsy'),
};

/** What a case needs so that nothing stands against it, and no remark beyond that. */
const plainly = (record: Group): Group => ({
  ...pick(record, 'casetally', 'planned', 'devices', 'contrast'),
  patient: without(record['patient'] ?? {}, ['pregnant']),
  indication: pick(record['indication'], 'text'),
  drugs: list(record['drugs']).map(one => without(one, ['by'])),
  ...pick(record, 'complications', 'conclusion', 'report', 'left'),
  // Where a department has no numbers of its own, a case goes by that of its order.
  case: {
    id: orderNumber(record),
    ...pick(record['case'], 'order', 'kind', 'status', 'urgency', 'started', 'ended'),
  },
  team: list(record['team'])
    .filter(one => one['role'] !== 'radiographer')
    .map(one => pick(one, 'key', 'name', 'role')),
  before: {
    ...pick(record['before'], 'allergies', 'anticoagulants', 'labs', 'checklist'),
    consent: pick(group(record['before'])['consent'], 'status', 'by'),
  },
  access: list(record['access']).map(one => pick(one, 'key', 'site', 'side', 'guidance')),
  targets: Object.fromEntries(
    Object.entries(group(record['targets'])).map(([key, one]) => [key, pick(one, 'what', 'side', 'success')]),
  ),
  events: list(record['events']).map(one =>
    pick(
      one,
      ...['do', 'device', 'part', 'over', 'through', 'with', 'count', 'volume', 'to', 'agent'],
      // How far something is in that comes out again is a remark.
      ...(list(record['left']).some(left => left['device'] === one['device']) ? ['depth'] : []),
    ),
  ),
  radiation: pick(
    record['radiation'],
    'doseLengthProduct',
    'ctDoseIndex',
    'kermaAreaProduct',
    'airKerma',
    'fluoroscopyTime',
  ),
  specimens: list(record['specimens']).map(one => pick(one, 'key', 'what', 'sentFor')),
  findings: list(record['findings'])
    .slice(0, 1)
    .map(one => pick(one, 'text')),
  outcome: pick(record['outcome'], 'overall', 'disposition'),
  aftercare: list(record['aftercare'])
    .filter(one => one['key'] !== 'remove')
    .slice(0, 2)
    .map(one => pick(one, 'do', 'every', 'due', 'by')),
});
const orderNumber = (record: Group) => `${group(group(record['case'])['order'])['value']}`;

/** Enters one case, with a FHIR server, a service and a worker of its own. */
async function entered(record: Group, dose: DoseFile | undefined, empty: boolean): Promise<Outcome> {
  const folder = mkdtempSync(join(tmpdir(), 'page-run-'));
  const server = await startSandbox({ preload: orderOf(record, 'ordered', new Date()) });
  writeFileSync(join(folder, 'devices.csv'), catalogueOf([record]));
  const kit = 'Usual for this kind of case';
  mkdirSync(join(folder, 'kits'));
  writeFileSync(join(folder, 'kits', 'usual.yaml'), kitOf(record, kit));
  const site = join(folder, 'site.yaml');
  writeFileSync(
    site,
    `casetallySite: 1
name: an invented site
namespace: 5f6a2c0e-8d3b-4d6e-9b1c-2a7e4f90d1c3
organization: { name: Invented Hospital }
timeZone: UTC
devices: { catalogue: devices.csv }
intake: { kits: kits }
drafts: { graceMinutes: 0 }
references: { patient: include, encounter: include, order: include }
destinations: { records: { url: "${server.baseUrl}" } }
routes: [{ to: records }]
`,
  );
  const shared = ['--site', site, '--data', join(folder, 'data')];
  const service = await startServe(['--no-auth', '--port', '0', ...shared], {});
  const { url } = service;
  await fetch(`${url}/v1/drafts`, {
    method: 'POST',
    headers: { 'content-type': 'application/yaml', 'casetally-by': 'Somebody' },
    body: caseBefore(record),
  });
  const worker = spawn(process.execPath, [program, 'outbox', 'work', ...shared], { stdio: 'ignore' });
  const tab = await openTab();
  await tab.size(820, 1180);
  try {
    return await enterCase(tab, url, record, empty ? undefined : { order: orderNumber(record), kit, dose });
  } finally {
    await tab.close();
    const ended = new Promise(resolve => worker.once('close', resolve));
    worker.kill();
    await Promise.all([ended, service.stop()]);
    await server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

const minutesOf = (seconds: number) => `${Math.floor(seconds / 60)} min ${Math.floor(seconds % 60)} s`;

function print(name: string, { parts, total, seconds, left }: Outcome): void {
  console.log(`\n${name}\n| part | taps | keys | labels | words spoken |\n|---|---:|---:|---:|---:|`);
  for (const { part, done } of [...parts, { part: 'together', done: total }])
    console.log(`| ${part} | ${done.taps} | ${done.keys} | ${done.labels} | ${done.words} |`);
  console.log(
    `By hand about ${minutesOf(secondsOf(total))} (keystroke-level model); this run took ${seconds.toFixed(0)} s.`,
  );
  console.log(`Not entered of the example: ${left.length === 0 ? 'nothing' : left.join(', ')}.`);
}

if (chromium === undefined) throw new Error('Chromium is needed for this.');
const dose = await doseOf(cases.stent);
const stent = { ...plainly(cases.stent), radiation: dose.radiation };
const runs = [
  { name: 'abscess without remarks', record: plainly(cases.abscess) },
  { name: 'abscess', record: cases.abscess },
  { name: 'liver biopsy', record: cases.biopsy },
  { name: 'ureteric stent without remarks, from order, kit and dose report', record: stent, dose },
  { name: 'ureteric stent without remarks, from nothing', record: stent, empty: true },
];
const wanted = process.argv[2] ?? '';
const done = new Map<string, Outcome>();
for (const { name, record, dose: file, empty = false } of runs) {
  if (!name.startsWith(wanted)) continue;
  const outcome = await entered(record, file, empty);
  done.set(name, outcome);
  print(name, outcome);
}
const [from, nothing] = runs.slice(-2).map(({ name }) => done.get(name));
if (from && nothing) {
  const of = ({ total }: Outcome) => total.taps + total.keys;
  const [few, many] = [of(from), of(nothing)];
  const [short, long] = [secondsOf(from.total), secondsOf(nothing.total)];
  console.log(
    `\nOrder, kit and dose report: ${few} touches and keys in place of ${many} (${Math.round(100 - (100 * few) / many)} % fewer), ${from.total.words} spoken words in place of ${nothing.total.words}, ${minutesOf(short)} in place of ${minutesOf(long)}.`,
  );
}
