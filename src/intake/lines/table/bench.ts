import { type Message, message } from '../../../findings/message.js';
import { wordsOf } from '../../../trade/words.js';
import type { Token } from '../text/tokens.js';
import type { LineContext, Meant, ProposedDevice, ProposedDrug, ProposedEvent, Span } from '../types.js';
import type { Named } from './choosing.js';
import { familyNamed, newKey, type OnTable, onTable } from './table.js';

/** What is known while lines are read, one after another. */
export class Bench {
  readonly table: OnTable[];
  readonly context: LineContext;
  /** Keys, those spoken of last first. */
  spokenOf: string[] = [];
  /** Device of the event before. */
  subject: string | undefined;
  /** The event before, for what is said to be done again. */
  last: ProposedEvent | undefined;
  /** Devices of which a line before did not say for certain whether they are inside. */
  readonly shaky = new Set<string>();

  constructor(context: LineContext) {
    this.context = context;
    this.table = (context.devices ?? []).map(device => onTable(device));
  }

  of(key: string | undefined): OnTable | undefined {
    return key === undefined ? undefined : this.table.find(one => one.key === key);
  }

  speakOf(key: string): void {
    this.spokenOf = [key, ...this.spokenOf.filter(one => one !== key)].slice(0, 50);
  }

  bring(device: ProposedDevice): OnTable {
    const key = newKey(device.kind, device.size ?? device.diameter, new Set(this.table.map(one => one.key)));
    const made = onTable({ key, ...device }, true);
    this.table.push(made);
    return made;
  }
}

/** What leaves open which device was meant, so that nobody knows where each of its family is. */
const open: ReadonlySet<string> = new Set([
  'line.twoFit',
  'line.noFit',
  'line.noDevice',
  'line.recent',
  'line.notIn',
  'line.isIn',
]);

/** Where devices are is not sure after a line that left open which was meant, until they are named again. */
export function trust(notes: LineNotes): void {
  const { bench, events, meant, unknown, why } = notes;
  const doubt = (key: string | undefined) => {
    const family = bench.of(key)?.family;
    for (const one of bench.table)
      if (one.key === key || (family && one.family === family)) bench.shaky.add(one.key);
  };
  for (const { key, params } of why) {
    if (!open.has(key)) continue;
    const said = Object.values(params ?? {}).flatMap(value => String(value).split(', '));
    const keys = said.filter(one => bench.of(one) !== undefined);
    if (key === 'line.twoFit') for (const one of keys) bench.shaky.add(one);
    else for (const one of keys.length > 0 ? keys : events.map(({ device }) => device)) doubt(one);
  }
  const families = new Set(unknown.flatMap(({ text }) => wordsOf(text).map(familyNamed)));
  for (const { key, family } of bench.table) if (family && families.has(family)) bench.shaky.add(key);
  if (why.length > 0) return;
  for (const { by, device } of meant)
    if (by === 'key' || by === 'size' || by === 'words' || by === 'new') bench.shaky.delete(device);
}

/** What one line says, as it is put together. */
export class LineNotes {
  readonly bench: Bench;
  readonly line: string;
  readonly events: ProposedEvent[] = [];
  readonly drugs: ProposedDrug[] = [];
  readonly devices: Record<string, ProposedDevice> = {};
  readonly meant: Meant[] = [];
  readonly why: Message[] = [];
  readonly unknown: Span[] = [];
  /** What was seen before the first event. */
  readonly seenFirst: string[] = [];
  /** Device that was got ready, and is used next. */
  pending: string | undefined;
  /** Devices that events of this line are about. */
  readonly subjects: string[] = [];

  constructor(bench: Bench, line: string) {
    this.bench = bench;
    this.line = line;
  }

  doubt(why: Message): void {
    const text = JSON.stringify(why);
    if (!this.why.some(one => JSON.stringify(one) === text)) this.why.push(why);
  }

  unclear(tokens: readonly Token[]): void {
    for (const { start, end, entry } of tokens)
      if (entry?.role !== 'article' && !this.unknown.some(one => one.start <= start && end <= one.end))
        this.unknown.push({ start, end, text: this.line.slice(start, end) });
  }

  /** Takes what some words mean: notes it, says what is doubtful of it, puts a new device on the table. */
  take(as: Meant['as'], named: Named, brings: boolean): OnTable | undefined {
    const { said } = named;
    this.unclear(named.unknown);
    let { device } = named;
    if (!device && named.proposal && brings) {
      device = this.bench.bring(named.proposal);
      this.devices[device.key] = named.proposal;
      this.meant.push({ as, device: device.key, by: 'new', said });
    } else if (!device) {
      const fit = named.fit.map(({ key }) => key);
      this.doubt(
        fit.length > 0
          ? message('line.twoFit', { said, devices: fit.join(', ') })
          : message('line.noFit', { said }),
      );
      return undefined;
    } else {
      const others = named.fit.map(({ key }) => key).filter(key => key !== device?.key);
      this.meant.push({ as, device: device.key, by: named.by, said, ...(others.length > 0 && { others }) });
      if (others.length > 0)
        this.doubt(message('line.twoFit', { said, devices: [device.key, ...others].join(', ') }));
      if (named.by === 'state' && named.rivals?.some(key => this.bench.shaky.has(key)))
        this.doubt(message('line.askBack', { word: said }));
      if (named.misplaced)
        this.doubt(message(device.inside > 0 ? 'line.isIn' : 'line.notIn', { device: device.key }));
    }
    this.bench.speakOf(device.key);
    return device;
  }
}
