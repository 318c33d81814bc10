import { type Finding, finding } from '../findings/finding.js';
import { pathText } from '../record/path.js';
import { convert, readQuantity } from '../record/quantity.js';
import type { TimeContext } from '../record/time.js';
import { valueAt } from '../record/tree.js';
import type { Claim, Proposal } from './claims.js';
import { epochOf, sourceSaid, timeSaid } from './source.js';

/** Fields that grow old, and the path of each in the record. */
const aged = {
  labs: 'before.labs',
  weight: 'patient.weight',
  height: 'patient.height',
  pregnant: 'patient.pregnant',
  anticoagulants: 'before.anticoagulants',
} as const;
export type AgedField = keyof typeof aged;
export const agedFields = Object.keys(aged) as [AgedField, ...AgedField[]];

/**
 * After how long a value is proposed and not taken, where the site says nothing. Local policy, no source: laboratory values
 * as `labAgeDays`; a weight within a season; an answer about pregnancy for the day it was given and the next.
 */
export const defaultAges: Readonly<Record<AgedField, string>> = {
  labs: '30 days',
  weight: '90 days',
  height: '730 days',
  pregnant: '2 days',
  anticoagulants: '30 days',
};

/** Limits of a site: a span in hours, days or weeks, or `off`. */
export type AgeLimits = Readonly<Partial<Record<AgedField, string | undefined>>>;

/** Hours of a span; undefined for `off` and for what has no fixed length. */
export function hoursOf(span: string): number | undefined {
  const read = readQuantity(span, ['duration']);
  const hours = read.ok && !read.value.comparator ? convert(read.value, 'h') : undefined;
  return hours?.toNumber();
}

/**
 * Takes out what is older than the limit of its field and makes a proposal of it.
 * @param day of the case, or the day on which values are brought in
 */
export function withoutOld(
  claims: readonly Claim[],
  entry: boolean,
  day: string | undefined,
  limits: AgeLimits,
  context: TimeContext,
): { readonly fresh: Claim[]; readonly old: Proposal[]; readonly findings: Finding[] } {
  const fresh: Claim[] = [];
  const old: Proposal[] = [];
  const findings: Finding[] = [];
  const now = day === undefined ? undefined : epochOf(day, context);
  for (const claim of claims) {
    const { path, value, source, said } = claim;
    const field = agedFields.find(name => aged[name] === path.join('.'));
    const limit = field && (limits[field] ?? defaultAges[field]);
    const hours = limit === undefined ? undefined : hoursOf(limit);
    const own = valueAt(value, ['at']);
    const at = claim.at ?? (typeof own === 'string' ? own : source.at);
    const then = epochOf(at, context);
    if (
      limit === undefined ||
      hours === undefined ||
      now === undefined ||
      then === undefined ||
      now - then <= hours * 3_600_000
    ) {
      fresh.push(claim);
      continue;
    }
    old.push({ path, value, source, entry, at, ...(said !== undefined && { said }) });
    const place = pathText(path);
    findings.push(
      finding('intake.too-old', place, {
        place,
        source: sourceSaid(source),
        at: timeSaid(at),
        limit,
      }),
    );
  }
  return { fresh, old, findings };
}
