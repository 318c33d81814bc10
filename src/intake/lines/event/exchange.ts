import { message } from '../../../findings/message.js';
import type { OnTable } from '../table/table.js';
import type { Noun } from '../text/clauses.js';
import { fields } from './fields.js';
import { type Draft, named, propose, type Reading } from './reading.js';
import { relations } from './relations.js';

const takesNew: ReadonlySet<string | undefined> = new Set(['for', 'with', 'to', 'into']);

/** `X exchanged for Y over W`: what comes out stands before what goes in. */
export function exchange(reading: Reading, doubtful: boolean): void {
  const { notes, clause, plain, at, amounts } = reading;
  const { bench } = notes;
  const used = new Set<Noun>();
  const event: Draft = { ...(at !== undefined && { at }), do: 'exchange' };
  const incoming = clause.nouns.find(
    noun =>
      takesNew.has(noun.preposition) &&
      amounts.left(noun).length > 0 &&
      (named(reading, noun, { where: 'outside' }, 'x') ?? false),
  );
  const outgoing = plain.find(noun => named(reading, noun, { where: 'inside' }) !== undefined);
  let old: OnTable | undefined;
  if (outgoing) {
    used.add(outgoing);
    const one = named(reading, outgoing, { where: 'inside' });
    if (one) old = notes.take('replaces', one, false);
  }
  // `dilator over the wire, then swapped for the sixteen`
  const before = bench.of(notes.subjects.at(-1));
  if (!old && plain.length === 0 && before && before.inside > 0) {
    old = before;
    notes.meant.push({ as: 'replaces', device: old.key, by: 'spoken of last' });
  }
  let fresh: OnTable | undefined;
  if (incoming) {
    used.add(incoming);
    const family = old?.family;
    const one = named(
      reading,
      incoming,
      {
        where: 'outside',
        can: device => device !== old && (family === undefined || device.family === family),
      },
      old?.kind,
    );
    if (one) fresh = notes.take('device', one, true);
  } else {
    const fit = bench.table.filter(
      one => one !== old && one.family === old?.family && one.inside < one.count,
    );
    fresh = fit.length === 1 ? fit[0] : undefined;
    notes.doubt(
      fresh ? message('line.recent', { device: fresh.key }) : message('line.noDevice', { verb: 'exchange' }),
    );
    if (fresh) notes.meant.push({ as: 'device', device: fresh.key, by: 'the only one' });
  }
  if (!old) {
    const inside = bench.table.filter(one => one.inside > 0 && one !== fresh);
    const alike = inside.filter(one => one.family === fresh?.family);
    old =
      inside.find(({ key }) => key === bench.subject && alike.some(one => one.key === key)) ??
      (alike.length === 1 ? alike[0] : undefined);
    if (!old) notes.doubt(message('line.noDevice', { verb: 'exchange' }));
    else {
      const others = alike.filter(one => one !== old).map(({ key }) => key);
      notes.meant.push({
        as: 'replaces',
        device: old.key,
        by: 'the only one',
        ...(others.length > 0 && { others }),
      });
      if (others.length > 0) notes.doubt(message('line.recent', { device: old.key }));
    }
  }
  if (fresh) event.device = fresh.key;
  if (old) event.replaces = old.key;
  relations(reading, event, 'exchange', used);
  fields(reading, event, 'exchange', fresh);
  propose(reading, event, !doubtful);
}
