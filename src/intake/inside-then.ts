import { deviceNamed } from '../clinical/named.js';
import { type Finding, finding } from '../findings/finding.js';
import type { Tree } from '../record/read.js';
import type { TimeContext } from '../record/time.js';
import { valueAt } from '../record/tree.js';
import type { Claim } from './claims.js';
import { epochOf, sourceSaid } from './source.js';

/** The case that devices are brought into. */
export interface ThisCase {
  /** `YYYY-MM-DD`; undefined where nobody has said it yet. */
  readonly day: string | undefined;
  readonly id: string | undefined;
  /** System of the case numbers of this site. */
  readonly system: string | undefined;
}

/**
 * Takes out devices that were not inside yet when the case began: those that a source has as placed on a later day, or in
 * this case itself. A wrong file and a case that is written long after it give such; a device that a later case only found
 * inside stays, since it was there.
 */
export function insideThen(
  claims: readonly Claim[],
  here: ThisCase,
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
    else if (field === 'date' && typeof value === 'string' && isLater(value, here.day, context)) {
      const dates = { date: { when: shown(value) }, day: { when: shown(here.day ?? '') } };
      if (!out.has(from)) out.set(from, finding('intake.placed-later', place, { ...said, ...dates }, weight));
    }
  }
  const kept = out.size === 0 ? claims : claims.filter(claim => !out.has(sourceKey(claim)));
  return { kept, findings: [...out.values()] };
}

/** Each source has its own say of a device. */
const sourceKey = ({ path, source }: Pick<Claim, 'path' | 'source'>): string =>
  JSON.stringify([path[0] === 'devices' ? path[1] : undefined, source.from, source.by, source.at]);

const isOwn = (value: Tree, { id, system }: ThisCase): boolean =>
  id !== undefined &&
  system !== undefined &&
  valueAt(value, ['value']) === id &&
  valueAt(value, ['system']) === system;

/** Later for certain: dates are compared as far as both go, and a time of the day leaves the day itself out. */
function isLater(text: string, day: string | undefined, context: TimeContext): boolean {
  if (day === undefined) return false;
  if (text.length <= day.length) return text > day.slice(0, text.length);
  const [then, began] = [epochOf(text, context), epochOf(day, context)];
  return then !== undefined && began !== undefined && then - began >= DAY_MS;
}

const DAY_MS = 86_400_000;

const shown = (text: string) => ({ text, iso: text.slice(0, 10) });
