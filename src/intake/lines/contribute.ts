import type { Contribution, GivenValue, Typed } from '../contribution.js';
import type { ReadLines } from './read.js';
import type { LineContext, LineReading, ProposedEvent } from './types.js';

export interface LineContributionOptions {
  /** When the lines were said, ISO 8601 with offset. */
  readonly at: string;
  /** Who said them. */
  readonly by?: string;
  /** Takes over what was understood: entries of the record, and no longer proposals. */
  readonly accept?: boolean;
}

/**
 * What lines give to a record: proposals, which assert nothing. With `accept`, what was understood stands in the record
 * if it can stand there by itself: with a time, with devices that are there, with a target that is there.
 */
export function linesContribution(
  { readings, findings }: ReadLines,
  context: LineContext,
  { at, by, accept = false }: LineContributionOptions,
): Contribution {
  const there = new Set((context.devices ?? []).map(({ key }) => key));
  const targets = new Set(Object.keys(context.targets ?? {}));
  const values = readings.flatMap(reading => {
    const taken = accept && stands(reading, there, targets);
    if (taken) for (const key of Object.keys(reading.devices)) there.add(key);
    return valuesOf(reading, taken);
  });
  return { from: 'line', at, ...(by !== undefined && { by }), values, findings };
}

function stands(reading: LineReading, there: ReadonlySet<string>, targets: ReadonlySet<string>): boolean {
  const known = new Set([...there, ...Object.keys(reading.devices)]);
  const keys = ({ device, over, through, replaces, with: others = [] }: ProposedEvent) =>
    [device, over, through, replaces, ...others].filter(key => key !== undefined);
  return (
    reading.certainty === 'understood' &&
    reading.events.every(
      event =>
        event.at !== undefined &&
        keys(event).every(key => known.has(key)) &&
        (event.across === undefined || targets.has(event.across)),
    )
  );
}

function valuesOf({ line, devices, events, drugs }: LineReading, taken: boolean): GivenValue[] {
  const entry = taken ? 'add' : 'propose-entry';
  return [
    ...Object.entries(devices).map(
      ([key, device]): GivenValue => ({
        path: ['devices', key],
        value: typed(device),
        as: taken ? 'set' : 'propose',
        said: line,
      }),
    ),
    ...events.map((event): GivenValue => ({ path: ['events'], value: typed(event), as: entry, said: line })),
    ...drugs.map((drug): GivenValue => ({ path: ['drugs'], value: typed(drug), as: entry, said: line })),
  ];
}

/** As a case file has it: text throughout. */
const typed = (fields: object): Typed =>
  Object.fromEntries(
    Object.entries(fields).map(([name, value]: [string, unknown]): [string, Typed] => [
      name,
      Array.isArray(value) ? value.map(String) : String(value),
    ]),
  );
