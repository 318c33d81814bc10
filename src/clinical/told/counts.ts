import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import { remembered } from '../../record/remembered.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { canBe, toldDevices } from '../../trade/devices/told.js';
import { inParts, NUMBER, numberOf } from './figure.js';
import { clausesOf, isTold, type Told, toldTexts } from './texts.js';

type Devices = ReadonlyMap<string, DeviceDetails>;

/** Words that cannot stand between a number and what it counts: units, and those that begin something else. */
const apart =
  '(?:of|in|and|to|at|with|from|into|by|mL|mm|cm|µm|Fr|French|F|G|gauge|mg|µg|g|kg|IU|atm|bar|min|h|s|x)\\b';
const sized = '(?:\\d[\\d.]*\\s?(?:G|Fr|mm|cm)\\s+)?';
/** A number that a clause tells of something. */
interface Counted {
  readonly number: number;
  readonly clause: string;
}

/** Reads the numbers of one thing that a text tells as they are. */
function numbersOf(words: string): (text: string) => readonly Counted[] {
  const pattern = new RegExp(
    `(?<![\\d.,/-])\\b(${NUMBER})\\s+${sized}(?:(?!${apart})[A-Za-z][\\w-]*\\s+){0,2}?(?:${words})\\b`,
    'gi',
  );
  return remembered(text =>
    clausesOf(text)
      .filter(clause => !shared.test(clause))
      .flatMap(clause =>
        [...clause.matchAll(pattern)]
          .filter(match => isTold(clause, match.index, match[0].length))
          .map(match => ({ number: numberOf(match[1] ?? ''), clause })),
      )
      .filter(({ number }) => Number.isFinite(number)),
  );
}

/** Things that texts count. `all`: a smaller number than that of the list is wrong too. */
const things: readonly {
  readonly numbers: (text: string) => readonly Counted[];
  readonly row?: string;
  readonly families?: readonly string[];
  readonly all: boolean;
}[] = [
  { numbers: numbersOf('coils?'), row: 'coil', all: true },
  { numbers: numbersOf('stents?|stent grafts?'), row: 'stent', all: true },
  { numbers: numbersOf('filters?'), row: 'filter', all: true },
  { numbers: numbersOf('plugs?'), row: 'plug', all: true },
  { numbers: numbersOf('drains?'), row: 'drain', all: false },
  { numbers: numbersOf('balloons?'), row: 'balloon', all: false },
  { numbers: numbersOf('needles?'), row: 'needle', all: false },
  { numbers: numbersOf('anchors?|fasteners?'), row: 'anchor', all: true },
  {
    numbers: numbersOf('antennas?|antennae|(?:cryo)?probes?|electrodes?|applicators?'),
    row: 'ablation probe',
    all: false,
  },
  { numbers: numbersOf('vials?'), row: 'embolic', all: true },
  { numbers: numbersOf('catheters?'), families: ['catheter', 'drain', 'tube'], all: false },
  { numbers: numbersOf('sheaths?'), families: ['sheath'], all: false },
  { numbers: numbersOf('ports?'), row: 'port', all: false },
  { numbers: numbersOf('screws?'), row: 'screw', all: true },
  { numbers: numbersOf('markers?|fiducials?'), row: 'marker', all: true },
];

const shared = /\b(?:each|per|every|respectively)\b/i;

/** Numbers of devices, samples and passes in words, against the lists. */
export function checkToldCounts(record: CaseRecord, devices: Devices): Finding[] {
  if (record.case.status === 'not done') return [];
  const texts = toldTexts(record).filter(({ scope }) => scope !== 'event');
  return [
    ...texts.flatMap(told => [...ofDevices(told, record, devices), ...ofSpecimens(told, record)].slice(0, 1)),
    ...ofPasses(record, texts),
  ];
}

const differs = (path: string, clause: string, told: number, other: number, place: string) =>
  finding('clinical.measurement-differs', path, {
    what: message('measure.told', { text: clause.trim() }),
    value: { number: String(told) },
    other: { number: String(other) },
    place,
  });

function ofDevices({ path, text, scope }: Told, record: CaseRecord, devices: Devices): Finding[] {
  for (const { numbers, row, families, all } of things) {
    const said = numbers(text);
    const thing = toldDevices.find(({ name }) => name === row);
    if (said.length === 0) continue;
    const mine = [...devices.values()].filter(
      ({ kind, row: known, family, entry }) =>
        (families?.includes(family) ||
          (thing && (canBe(thing, kind, family) || canBe(thing, known ?? '', family)))) &&
        entry.use !== 'unopened' &&
        entry.use !== 'opened unused',
    );
    const listed = mine.reduce((sum, { count }) => sum + count, 0);
    if (listed === 0) continue;
    const keys = new Set(mine.map(({ key }) => key));
    const groups = [
      ...mine.map(({ count }) => count),
      ...entriesOf(record.left).flatMap(({ device, count }) => (keys.has(device) ? [count ?? 1] : [])),
      ...byTarget(record, keys),
    ];
    const more = said.find(({ number }) => number > listed);
    const fewer =
      all && scope === 'whole' && said.length === 1 && !inParts.test(said[0]?.clause ?? '')
        ? said.find(({ number }) => number < listed && !groups.includes(number))
        : undefined;
    const wrong = more ?? fewer;
    const place = mine[0] ? `devices.${mine[0].key}` : 'devices';
    if (wrong) return [differs(path, wrong.clause, wrong.number, listed, place)];
  }
  return [];
}

/** How many went into each target. */
function byTarget(record: CaseRecord, keys: ReadonlySet<string>): number[] {
  const sums = new Map<string, number>();
  for (const { device, target, across, count, do: verb } of record.events ?? [])
    if (
      device !== undefined &&
      keys.has(device) &&
      (verb === 'deploy' || verb === 'insert' || verb === 'detach')
    ) {
      const where = `${verb} ${target ?? across ?? ''}`;
      sums.set(where, (sums.get(where) ?? 0) + (count ?? 1));
    }
  return [...sums.values()];
}

const samples = numbersOf('cores?|samples?|specimens?|biopsies|cylinders|pots?');
const samplesAndTubes = numbersOf('cores?|samples?|specimens?|biopsies|cylinders|tubes?|pots?');
const passesTold = numbersOf('pass|passes');

function ofSpecimens({ path, text, scope }: Told, record: CaseRecord): Finding[] {
  const list = entriesOf(record.specimens);
  if (list.length === 0 || scope !== 'whole') return [];
  const counts = list.map(({ count }) => count);
  if (counts.includes(undefined)) return [];
  const known = counts.flatMap(count => count ?? []);
  const total = known.reduce((a, b) => a + b, 0);
  const tubes = list.some(({ what, container }) => /\btubes?\b/i.test(`${what.text} ${container ?? ''}`));
  const said = (tubes ? samplesAndTubes : samples)(text);
  const wrong = said.find(
    ({ number }) => number > total || (said.length === 1 && number !== total && !known.includes(number)),
  );
  return wrong ? [differs(path, wrong.clause, wrong.number, total, 'specimens')] : [];
}

/** Passes told twice with different numbers, where there is one target to pass. */
function ofPasses(record: CaseRecord, texts: readonly Told[]): Finding[] {
  if (Object.keys(record.targets ?? {}).length > 1) return [];
  const said = texts.flatMap(({ path, text }) =>
    passesTold(text).map(({ number, clause }) => ({ path, number, clause })),
  );
  for (const [i, { note, passes }] of (record.access ?? []).entries()) {
    const other = passesTold(note ?? '').find(({ number }) => number !== passes);
    if (passes !== undefined && other)
      return [differs(`access[${i}].note`, other.clause, other.number, passes, `access[${i}].passes`)];
  }
  const [one] = said;
  const other = said.find(({ number }) => number !== one?.number);
  return one && other ? [differs(other.path, other.clause, other.number, one.number, one.path)] : [];
}
