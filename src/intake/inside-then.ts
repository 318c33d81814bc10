import { deviceNamed } from '../clinical/named.js';
import { type Finding, finding } from '../findings/finding.js';
import type { Tree } from '../record/read.js';
import { isCalendarDate, readWhen, type TimeContext } from '../record/time.js';
import { valueAt } from '../record/tree.js';
import type { Claim } from './claims.js';
import { sourceSaid, timeSaid } from './source.js';

/** The number of the case that devices are brought into. */
export interface CaseNumber {
  readonly id: string | undefined;
  /** System of the case numbers of this site. */
  readonly system: string | undefined;
}

/**
 * Takes out devices that were not inside yet when the case began: those that a source has as placed on a later day, or in
 * this case itself. A wrong file and a case that is written long after it give such; a device that a later case only found
 * inside stays, since it was there.
 * @param context with the day of the case; nothing is later where nobody has said it yet
 */
export function insideThen(
  claims: readonly Claim[],
  here: CaseNumber,
  context: TimeContext,
): { readonly kept: readonly Claim[]; readonly findings: readonly Finding[] } {
  const kinds = new Map(
    claims.flatMap(({ path, value, source }) =>
      path[0] === 'devices' && path[2] === 'kind' && path.length === 3 && typeof value === 'string'
        ? [[sourceKey({ path, source }), value]]
        : [],
    ),
  );
  const out = new Map<string, Finding>();
  for (const { path, value, source } of claims) {
    const [list, key = '', group, field] = path;
    if (list !== 'devices' || group !== 'carried') continue;
    const place = `devices.${key}`;
    const from = sourceKey({ path, source });
    const kind = kinds.get(from);
    // A file was given by somebody, who may have taken the wrong one; a register has all that came later.
    const weight = { severity: source.from === 'earlier case' ? 'error' : 'information' } as const;
    const said = { device: kind === undefined ? key : deviceNamed(kind), source: sourceSaid(source) };
    if (field === 'case' && isOwn(value, here))
      out.set(from, finding('intake.placed-here', place, said, weight));
    else if (field === 'date' && typeof value === 'string' && isLater(value, context)) {
      const dates = { date: timeSaid(value), day: timeSaid(context.date ?? '') };
      if (!out.has(from)) out.set(from, finding('intake.placed-later', place, { ...said, ...dates }, weight));
    }
  }
  const kept = out.size === 0 ? claims : claims.filter(claim => !out.has(sourceKey(claim)));
  return { kept, findings: [...out.values()] };
}

/** Each source has its own say of a device. */
const sourceKey = ({ path, source }: Pick<Claim, 'path' | 'source'>): string =>
  JSON.stringify([path[0] === 'devices' ? path[1] : undefined, source.from, source.by, source.at]);

const isOwn = (value: Tree, { id, system }: CaseNumber): boolean =>
  id !== undefined &&
  system !== undefined &&
  valueAt(value, ['value']) === id &&
  valueAt(value, ['system']) === system;

/** Later for certain: dates are compared as far as both go, and what is no date is none. */
function isLater(text: string, context: TimeContext): boolean {
  const { date: day } = context;
  const read = readWhen(text, context);
  if (!read.ok || day === undefined || !isCalendarDate(day)) return false;
  const { iso, moment } = read.value;
  return moment ? moment.epoch - Date.parse(day) >= LONGEST_MS : iso > day.slice(0, iso.length);
}

/** From the beginning of a day in UTC to its end where that comes last, twelve hours behind. */
const LONGEST_MS = 36 * 3_600_000;
