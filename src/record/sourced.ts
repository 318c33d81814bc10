import type { Param } from '../findings/message.js';
import { message } from '../findings/message.js';
import { placeOf } from './changes/place.js';
import { plainRecord } from './plain.js';
import type { CaseRecord } from './schema/record.js';
import type { SourceKind } from './schema/sources.js';
import { segmentsOf } from './sources.js';
import type { Moment } from './time.js';

/** One source of a record and what of it came from there. */
export interface SourcedValues {
  /** The first of its lines: `sources[0]`. */
  readonly path: string;
  readonly from: SourceKind;
  readonly by?: string | undefined;
  readonly at: Moment;
  /** What kind of source, with its name where it has one: `kit Biliary drainage`. */
  readonly source: Param;
  /** Each value by the name that people know it by. */
  readonly places: readonly Param[];
}

/** The lines of `sources`, those of one source together, in the order of the record. */
export function sourcedValues(record: CaseRecord): SourcedValues[] {
  const { sources = [] } = record;
  if (sources.length === 0) return [];
  const root = plainRecord(record);
  const found = new Map<string, SourcedValues & { readonly places: Param[] }>();
  sources.forEach(({ path, from, by, at }, index) => {
    const id = JSON.stringify([from, by, at.iso]);
    const kind = message(`source.${from}`);
    const one = found.get(id) ?? {
      path: `sources[${index}]`,
      ...{ from, by, at },
      source: by === undefined ? kind : message('source.named', { source: kind, by }),
      places: [],
    };
    one.places.push(placeOf(segmentsOf(path), root, true));
    found.set(id, one);
  });
  return [...found.values()];
}
