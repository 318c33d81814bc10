import { message } from '../../../findings/message.js';
import type { LineNotes } from '../table/bench.js';
import type { Named } from '../table/choosing.js';
import { apply } from '../table/state.js';
import { namedBy } from '../table/which.js';
import type { Clause, Noun } from '../text/clauses.js';
import type { Token } from '../text/tokens.js';
import type { ProposedEvent } from '../types.js';
import type { Plan } from './plans.js';
import type { Amounts } from './said.js';

/** An event as it is put together. */
export type Draft = { -readonly [name in keyof ProposedEvent]: ProposedEvent[name] };

/** A clause with what is read of it on the way. */
export interface Reading {
  readonly notes: LineNotes;
  readonly clause: Clause;
  readonly amounts: Amounts;
  /** Nouns without a preposition. */
  readonly plain: readonly Noun[];
  readonly at: string | undefined;
}

export const rolesOf = (clause: Clause, role: string): Token[] =>
  clause.tokens.filter(({ entry }) => entry?.role === role);

export function textOf(clause: Clause, line: string): string {
  const [first] = clause.tokens;
  const last = clause.tokens.at(-1);
  return first && last ? line.slice(first.start, last.end).trim() : '';
}

/** The device that a group of words means, on the table as it is now. */
export function named(
  { notes: { bench, subjects } }: Reading,
  noun: Noun,
  { where, can }: Pick<Plan, 'where' | 'can'>,
  kind?: string,
): Named | undefined {
  return namedBy(noun, {
    ...{ table: bench.table, spokenOf: bench.spokenOf, where },
    alike: bench.of(subjects.at(-1))?.family,
    ...(can && { can }),
    ...(kind !== undefined && { kind }),
  });
}

/** Adds an event to the line. */
export function propose({ notes }: Reading, event: ProposedEvent, happened: boolean): void {
  const { bench } = notes;
  if (happened) {
    const there = apply(bench.table, event);
    if (there !== undefined)
      notes.doubt(message('line.tooMany', { there: `${there}`, count: `${event.count ?? 1}` }));
  }
  bench.last = event;
  if (event.device !== undefined) {
    bench.subject = event.device;
    notes.subjects.push(event.device);
    bench.speakOf(event.device);
  }
  const seen = notes.seenFirst.splice(0);
  const note = [...seen, ...(event.note === undefined ? [] : [event.note])].join('; ');
  notes.events.push(note === '' ? event : { ...event, note });
}
