import { type Finding, finding } from '../findings/finding.js';
import { message, type Param } from '../findings/message.js';
import { pathText } from '../record/path.js';
import type { Tree } from '../record/read.js';
import type { TimeContext } from '../record/time.js';
import type { Claim } from './claims.js';
import { thingOf } from './fields.js';
import { meaningOf } from './meaning.js';
import { epochOf, type Source, sameSource, sourceSaid, valueSaid } from './source.js';

/** What the record has at a place, and the sources that it names for it: none for what was typed. */
export interface Present {
  readonly value: Tree;
  readonly sources: readonly Source[];
}

/** What became of one field. */
export interface Settled {
  /** The claim whose value the field takes. */
  readonly taken?: Claim;
  /** Claims that contradict one another where the record is silent: for a person to choose from. */
  readonly open: readonly Claim[];
  readonly findings: readonly Finding[];
}

const nothing: Settled = { open: [], findings: [] };

/** Of what one source says of one field at several times, the latest. */
function latest(claims: readonly Claim[], context: TimeContext): Claim[] {
  const timeOf = ({ source }: Claim) => epochOf(source.at, context) ?? 0;
  return claims.filter(
    one => !claims.some(other => sameSource(one.source, other.source) && timeOf(other) > timeOf(one)),
  );
}

/** Decides one field: claims in the order of their rank, all of the same path. */
export function settle(
  claims: readonly Claim[],
  present: Present | undefined,
  context: TimeContext,
): Settled {
  const [first] = claims;
  if (!first) return nothing;
  const { path } = first;
  const name = path.at(-1) ?? '';
  const meaning = (value: Tree) => meaningOf(value, name, context);
  const newest = latest(claims, context);
  const meanings = new Set(newest.map(one => meaning(one.value)));
  if (!present) {
    const [taken] = newest;
    if (taken && meanings.size === 1) return { ...nothing, taken };
    return { open: newest, findings: [differ(path, newest.map(sideOf))] };
  }
  const here = meaning(present.value);
  const others = newest.filter(one => meaning(one.value) !== here);
  const [renewing] = others;
  if (!renewing) return nothing;
  const alone = meanings.size === 1 && present.sources.length > 0;
  if (alone && others.every(one => renews(one, present, context))) {
    const place = pathText(path);
    const said = {
      source: sourceSaid(renewing.source),
      was: valueSaid(present.value),
      is: valueSaid(renewing.value),
    };
    return { open: [], taken: renewing, findings: [finding('intake.renewed', place, { place, ...said })] };
  }
  const contrary = others.filter(one => !isPast(one, present, context));
  if (contrary.length === 0) return nothing;
  return { open: [], findings: [differ(path, [presentSide(present), ...contrary.map(sideOf)])] };
}

/** A later word of the source that the value came from. Groups and lists may hold what a person added: those never. */
function renews({ value, source, path }: Claim, present: Present, context: TimeContext): boolean {
  if (typeof value === 'object' || typeof present.value === 'object') return false;
  // What lies on the table is for those at the table to say.
  if (source.from === 'kit' || thingOf(path)?.length === path.length) return false;
  return present.sources.every(
    one => sameSource(one, source) && (epochOf(source.at, context) ?? 0) > (epochOf(one.at, context) ?? 0),
  );
}

/** An earlier word of the source that the value came from: it has thought better of it since. */
const isPast = ({ source }: Claim, present: Present, context: TimeContext): boolean =>
  present.sources.some(
    one => sameSource(one, source) && (epochOf(source.at, context) ?? 0) < (epochOf(one.at, context) ?? 0),
  );

export const sideOf = ({ value, source }: Claim): Param =>
  message('intake.says', { value: valueSaid(value), source: sourceSaid(source) });

export function presentSide({ value, sources }: Present): Param {
  const [source] = sources;
  if (!source) return message('intake.typed', { value: valueSaid(value) });
  return message('intake.says', { value: valueSaid(value), source: sourceSaid(source) });
}

export function differ(path: readonly string[], sides: readonly Param[]): Finding {
  const place = pathText(path);
  return finding('intake.disagrees', place, { place, sides: { list: sides } });
}
