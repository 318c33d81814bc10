import { type Finding, finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { entriesOf } from '../../record/entries.js';
import { convert } from '../../record/quantity.js';
import type { CaseEvent, CaseRecord } from '../../record/schema/record.js';

/** A pass that gave nothing. */
const empty = /\b(?:empty|nothing|no (?:tissue|core|material|sample)|dry|failed|missed)\b/i;
const cores = /\bcores?\b|\bbiops(?:y|ies)\b|\bcylinders?\b/i;

interface At {
  readonly event: CaseEvent;
  readonly path: string;
}

/** Specimens against the events that took them: none, number and volume. */
export function checkSpecimens(record: CaseRecord): Finding[] {
  const events = (record.events ?? []).map((event, i) => ({ event, path: `events[${i}]` }));
  const taken = events.filter(
    ({ event }) => (event.do === 'sample' && !empty.test(event.result ?? '')) || event.specimen !== undefined,
  );
  const list = entriesOf(record.specimens);
  const [first] = taken;
  if (list.length === 0)
    return first
      ? [
          finding('clinical.specimen-differs', 'specimens', {
            specimens: message('specimens.none'),
            events: first.event.device ?? first.event.do,
            place: first.path,
          }),
        ]
      : [];
  const differs = (path: string, said: string, found: Param, place: string | undefined) =>
    finding('clinical.specimen-differs', path, { specimens: said, events: found, place: place ?? 'events' });
  return list.flatMap((specimen, i) => {
    const named = events.filter(({ event }) => specimen.key !== undefined && event.specimen === specimen.key);
    const samples = (named.length > 0 ? named : list.length === 1 ? taken : []).filter(
      ({ event }) => event.do === 'sample',
    );
    const good = samples.filter(({ event }) => !empty.test(event.result ?? ''));
    const number = good.reduce((sum, { event }) => sum + (event.count ?? 1), 0);
    const pieces = good.some(({ event }) => /\bpieces|fragments|in two\b/i.test(event.result ?? ''));
    // One line may stand for several passes.
    const vague = good.length === 1 && good[0]?.event.count === undefined;
    const told = named.length > 0 && good.every(({ event }) => event.count !== undefined);
    const counted =
      specimen.count !== undefined &&
      number > 0 &&
      !vague &&
      (told || cores.test(specimen.what.text)) &&
      !pieces;
    if (counted && specimen.count !== number)
      return [differs(`specimens[${i}].count`, String(specimen.count), String(number), good[0]?.path)];
    const drawn = named.length > 0 ? named : [];
    const where = drawn.find(({ event }) => event.target !== undefined && event.target !== specimen.from);
    if (specimen.from !== undefined && where && drawn.every(({ event }) => event.target !== specimen.from))
      return [differs(`specimens[${i}].from`, specimen.from, where.event.target ?? '', where.path)];
    const early = earlierThan(specimen.at?.epoch, drawn);
    if (early)
      return [differs(`specimens[${i}].at`, specimen.at?.clock ?? '', early.event.at.clock, early.path)];
    if (drawn.length === 0 && isUntaken(specimen.key, events, list.length))
      return [differs(`specimens[${i}]`, specimen.what.text, message('specimens.none'), 'events')];
    const volumes = volumeOf(drawn.map(({ event }) => event));
    const own = specimen.volume && convert(specimen.volume, 'mL');
    return own && volumes && own.gt(volumes.times('1.05'))
      ? [differs(`specimens[${i}].volume`, `${own} mL`, `${volumes} mL`, drawn[0]?.path)]
      : [];
  });
}

/** The first of the events that took a specimen, where they all come after the time of the specimen. */
function earlierThan(epoch: number | undefined, drawn: readonly At[]): At | undefined {
  const [first] = [...drawn].sort((a, b) => a.event.at.epoch - b.event.at.epoch);
  return epoch !== undefined && first && epoch < first.event.at.epoch - 60_000 ? first : undefined;
}

const taking: ReadonlySet<CaseEvent['do']> = new Set(['sample', 'aspirate', 'retrieve', 'capture']);

/**
 * A specimen that no event took: others of the case are named by the events that took them, or no event of the case
 * takes anything. A record of few events does not tell all of them.
 */
function isUntaken(key: string | undefined, events: readonly At[], specimens: number): boolean {
  const named = new Set(events.flatMap(({ event }) => event.specimen ?? []));
  if (named.size > 0) return key !== undefined && named.size >= specimens - 1;
  return (
    events.length >= 6 &&
    !events.some(({ event }) => taking.has(event.do) && event.device !== undefined && event.do !== 'remove')
  );
}

function volumeOf(events: readonly CaseEvent[]): Decimal | undefined {
  const parts = events
    .filter(event => event.do === 'aspirate' || event.do === 'sample')
    .map(({ volume }) => volume && convert(volume, 'mL'));
  const known = parts.flatMap(part => part ?? []);
  if (known.length === 0 || known.length < parts.length) return undefined;
  return known.reduce((sum, part) => sum.plus(part), new Decimal(0));
}
