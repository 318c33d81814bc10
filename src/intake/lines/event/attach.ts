import { message } from '../../../findings/message.js';
import type { ProposedEvent } from '../types.js';
import { fields } from './fields.js';
import { type Draft, propose, type Reading, textOf } from './reading.js';
import { relations } from './relations.js';

/** `on free drainage, sutured`: one setting of one device, of several clauses. */
export function sameSetting(last: Draft | undefined, event: Draft, ownNoun: boolean): boolean {
  if (
    last?.do !== 'set' ||
    last.to === 'locked' ||
    event.do !== 'set' ||
    last.device !== event.device ||
    (ownNoun && last.to !== undefined && event.to !== undefined) ||
    last.at !== event.at
  )
    return false;
  for (const name of ['to', 'fixedBy', 'depth'] as const)
    if (event[name] !== undefined) last[name] = [last[name], event[name]].filter(Boolean).join(' and ');
  return true;
}

/** `stent in over the wire, positioned at the origin`: where it came to be, and no second act. */
export function settled({ notes, clause, plain }: Reading): boolean {
  const last = notes.events.at(-1)?.do;
  const only = clause.tokens.filter(({ entry }) => entry?.role === 'act');
  return (
    (last === 'insert' || last === 'advance' || last === 'exchange') &&
    plain.length === 0 &&
    only.length > 0 &&
    only.every(({ text }) => /^(?:positioned|parked|seated|sited|reached|reaches)$/i.test(text))
  );
}

/** `coil placed and detached` is one thing done: it is set free. */
export function setFree(last: Draft | undefined, event: Draft, ownNoun: boolean): boolean {
  const one = last?.device === event.device && last?.at === event.at && !ownNoun;
  if (!last || !one || last.do !== 'deploy') return false;
  if (event.do !== 'detach' && event.do !== 'release') return false;
  if (event.do === 'detach') last.do = 'detach';
  return true;
}

/** What each verb is measured by. */
const measuredBy: Readonly<Partial<Record<ProposedEvent['do'], readonly string[]>>> = {
  inflate: ['pressure', 'duration', 'volume'],
  compress: ['duration'],
  ablate: ['duration'],
  inject: ['volume', 'duration'],
  flush: ['volume'],
  aspirate: ['volume'],
  measure: ['pressure'],
};

/** Whether a clause of amounts alone says more of the event before it: `balloon up, 6 atm, 180 seconds`. */
export function belongs({ notes, clause, plain, amounts }: Reading): boolean {
  const last = notes.events.at(-1);
  if (!last || plain.length > 0 || clause.acts.length > 0 || clause.particles.size > 0) return false;
  const here = (['pressure', 'duration', 'volume'] as const).filter(name => amounts[name] !== undefined);
  const takes = measuredBy[last.do] ?? [];
  return here.length > 0 && here.every(name => takes.includes(name) && last[name] === undefined);
}

/** Adds what a clause without a verb says to the event before it in the line. */
export function attach(reading: Reading): boolean {
  const { notes, clause, plain } = reading;
  const last = notes.events.at(-1) as Draft | undefined;
  const seen = clause.tokens.some(({ entry }) => entry?.role === 'seen');
  if (!last || (plain.length > 0 && !seen)) return false;
  if (seen) {
    last.result = [last.result, textOf(clause, notes.line)].filter(Boolean).join('; ');
    return true;
  }
  if (/^all$/i.test(clause.tokens[0]?.text ?? '')) {
    last.result = [last.result, textOf(clause, notes.line)].filter(Boolean).join('; ');
    return true;
  }
  const own: Draft = { do: last.do };
  const act = last.do === 'flush' || last.do === 'inject' || last.do === 'inflate' ? last.do : 'advance';
  relations(reading, own, act, new Set());
  fields(reading, own, act, undefined);
  if (last.do === 'set' && own.fixedBy !== undefined && last.fixedBy !== undefined)
    own.fixedBy = `${last.fixedBy} and ${own.fixedBy}`;
  // `in through the sheath and across the occlusion`: two things, one after the other.
  if (
    clause.joint === 'and' &&
    own.across !== undefined &&
    last.across === undefined &&
    last.do === 'insert'
  ) {
    const { device } = last;
    propose(
      reading,
      {
        ...own,
        ...(last.at !== undefined && { at: last.at }),
        do: 'cross',
        ...(device !== undefined && { device }),
      },
      true,
    );
    return true;
  }
  if (settled(reading) && own.into === undefined && own.across === undefined)
    notes.doubt(message('line.askBack', { word: textOf(clause, notes.line) }));
  const { do: _, ...rest } = own;
  for (const name of Object.keys(rest) as (keyof typeof rest)[])
    if (name !== 'note' && last[name] !== undefined && last[name] !== rest[name]) {
      notes.doubt(message('line.askBack', { word: textOf(clause, notes.line) }));
      delete rest[name];
    }
  Object.assign(last, rest);
  return true;
}
