import type { DeviceFamily } from '../../devices/types.js';
import { died } from '../../record/died.js';
import { entriesOf } from '../../record/entries.js';
import { printQuantity, readQuantity } from '../../record/quantity.js';
import type { Term } from '../../record/schema/fields.js';
import type { AftercareEntry, CaseRecord } from '../../record/schema/record.js';
import { looksAtSkin } from '../../trade/places.js';
import { staysForGood } from '../../trade/removal.js';
import { countedFrom, type Dates, type WorkingDays } from './due-date.js';
import { byUrgency } from './order.js';
import { type AftercareRule, type Applied, rulesFor } from './rules.js';
import { type Plan, planner } from './span.js';

export type { DueDate } from './due-date.js';

/** Conditions that can be measured, and what follows from each. */
export type Criterion = NonNullable<AftercareEntry['criteria']>[number];

/** Something to do after the case. Dates are advice for a person to confirm, never an order. */
export interface AftercareItem extends Plan {
  /** Stable and unique within the case: the written key, or made from the place in the record. */
  readonly key: string;
  /** `aftercare[0]` or `left[1]`. */
  readonly path: string;
  readonly what: string;
  /** Key of the device that it is about. */
  readonly device?: string;
  readonly condition?: string;
  readonly criteria: readonly Criterion[];
  /** How often, as written. */
  readonly every?: string;
  /** How long, as written; `until` is when it ends, where that can be counted. */
  readonly duration?: string;
  readonly by: string;
  readonly call?: string;
  readonly ifMissed?: string;
  readonly urgent: boolean;
  /** Whether a person wrote the item, it follows from the entry on what was left, or from a rule of the site. */
  readonly source: 'aftercare' | 'left' | 'site';
  /** Where the site's rule comes from. */
  readonly policy?: string;
}

/** How a site plans: which days count, and what its policy asks for. */
export interface AftercareOptions extends WorkingDays {
  readonly rules: readonly AftercareRule[];
  /** What is added when a substantial dose was reached and no item of the record looks at the skin. */
  readonly skinReview?: Omit<AftercareRule, 'kind' | 'case' | 'key'>;
  /** What to do when a date is passed, for dated items that do not say. */
  readonly ifMissed?: string;
  /** Zone of the site, for a record that has none. */
  readonly timeZone?: string | undefined;
}

export const plainCalendar: AftercareOptions = { weekend: [6, 7], holidays: [], rules: [] };

/** What is proposed where the site has no rule of its own: no date, since none was read in a source. */
export const SKIN_REVIEW: NonNullable<AftercareOptions['skinReview']> = {
  what: 'Look at the skin where the beam entered',
  when: 'a substantial dose level was reached',
  by: 'referrer',
  source: 'SIR 2009 (Stecker et al., JVIR 20:S263): follow-up after a substantial dose; from memory',
};

/**
 * Aftercare items of the record, one for each device left with a date or condition that no item of the record covers,
 * the site's rules, and a look at the skin after a substantial dose. The most urgent comes first: see `byUrgency`.
 */
export function aftercareOf(
  record: CaseRecord,
  devices: ReadonlyMap<string, { readonly kind: string; readonly family?: DeviceFamily }> = new Map(),
  options: AftercareOptions = plainCalendar,
  substantialDose = false,
): AftercareItem[] {
  const plan = planner(countedFrom(record, options.timeZone), options);
  const written = (record.aftercare ?? []).map((item, index) => fromRecord(item, index, plan(item)));
  const left = entriesOf(record.left);
  const dead = died(record);
  const implied = left.flatMap((entry, index): AftercareItem[] => {
    if (dead || (!entry.until && !entry.latest)) return [];
    // Nothing is to be done about what stays for good.
    if (!entry.until?.date && !entry.latest && staysForGood(entry.until?.condition)) return [];
    const dates = plan({
      due: entry.until?.date,
      latest: entry.latest,
      when: entry.until?.condition,
      by: BY_DEFAULT,
    });
    // An item names a device, not a part of it: it is about the part where nothing else of the device stayed.
    const whole =
      entry.part === undefined || left.filter(({ device }) => device === entry.device).length === 1;
    if (whole && written.some(item => coversLeft(item, entry.device, dates))) return [];
    return [
      {
        key: `left-${index + 1}`,
        path: `left[${index}]`,
        what: entry.purpose === 'intended' ? 'Review or change' : 'Remove or change',
        device: entry.device,
        ...dates,
        ...(entry.until?.condition !== undefined && { condition: entry.until.condition }),
        by: BY_DEFAULT,
        urgent: false,
        criteria: [],
        source: 'left',
      },
    ];
  });
  const ruled = (dead ? [] : rulesFor(record, devices, options.rules))
    .filter(({ replacedBy }) => replacedBy === undefined)
    .map(one => fromRule(one, plan(spansOf(one.rule))));
  const skin =
    substantialDose && !dead && !written.some(item => looksAtSkin(item.what))
      ? [skinReview(options.skinReview ?? SKIN_REVIEW, rule => plan(spansOf(rule)))]
      : [];
  const items = [...written, ...implied, ...ruled, ...skin];
  return unique(items.map(item => withIfMissed(item, options.ifMissed))).sort(byUrgency);
}

/**
 * True for a written item that comes back to the device by the very day that the entry on what was left names: a second
 * item for that day would say the same again. One that ends earlier (a look at the drain) or later, or has no day, leaves
 * the entry its own item: no date may get lost.
 */
function coversLeft(item: AftercareItem, device: string, { due, latest }: Dates): boolean {
  const limit = (latest ?? due)?.date;
  return limit !== undefined && item.device === device && [item.due?.date, item.latest?.date].includes(limit);
}

/** Who comes back to a device when no item of the record says it. */
const BY_DEFAULT = 'interventional radiology';

const spansOf = (rule: Omit<AftercareRule, 'source'>) => ({
  ...rule,
  earliest: spanOf(rule.earliest),
  due: spanOf(rule.due),
  latest: spanOf(rule.latest),
});

function spanOf(written: string | undefined): Term | undefined {
  if (written === undefined) return undefined;
  const span = readQuantity(written, ['duration']);
  return span.ok ? { text: written, span: span.value } : undefined;
}

function fromRecord(item: AftercareEntry, index: number, dates: Plan): AftercareItem {
  return {
    key: item.key ?? `aftercare-${index + 1}`,
    path: `aftercare[${index}]`,
    what: item.do,
    ...(item.device !== undefined && { device: item.device }),
    ...dates,
    ...(item.when !== undefined && { condition: item.when }),
    criteria: item.criteria ?? [],
    ...(item.every !== undefined && { every: item.every }),
    ...(item.for !== undefined && { duration: item.for }),
    by: item.by,
    ...(item.call !== undefined && { call: item.call }),
    ...(item.ifMissed !== undefined && { ifMissed: item.ifMissed }),
    urgent: item.urgent ?? false,
    source: 'aftercare',
  };
}

function fromRule({ rule, path, device }: Applied, dates: Plan): AftercareItem {
  return {
    key: ['rule', device, slug(rule.key ?? rule.what)].filter(part => part).join('-'),
    path,
    what: rule.what,
    ...(device !== undefined && { device }),
    ...dates,
    ...(rule.when !== undefined && { condition: rule.when }),
    criteria: rule.criteria ?? [],
    ...(rule.every !== undefined && { every: rule.every }),
    ...(rule.for !== undefined && { duration: rule.for }),
    by: rule.by,
    ...(rule.call !== undefined && { call: rule.call }),
    ...(rule.ifMissed !== undefined && { ifMissed: rule.ifMissed }),
    urgent: false,
    source: 'site',
    policy: rule.source,
  };
}

function skinReview(
  rule: NonNullable<AftercareOptions['skinReview']>,
  plan: (rule: NonNullable<AftercareOptions['skinReview']>) => Plan,
): AftercareItem {
  return { ...fromRule({ rule, path: 'radiation' }, plan(rule)), key: 'skin-review' };
}

function withIfMissed(item: AftercareItem, ifMissed: string | undefined): AftercareItem {
  const dated = item.earliest ?? item.due ?? item.latest;
  return ifMissed === undefined || item.ifMissed !== undefined || !dated ? item : { ...item, ifMissed };
}

/** A key that comes again gets a number, so that each item can be found again. */
function unique(items: readonly AftercareItem[]): AftercareItem[] {
  const taken = new Set(items.map(item => item.key));
  const seen = new Set<string>();
  return items.map(item => {
    if (!seen.has(item.key)) {
      seen.add(item.key);
      return item;
    }
    let number = 2;
    while (taken.has(`${item.key}-${number}`)) number++;
    const key = `${item.key}-${number}`;
    taken.add(key);
    seen.add(key);
    return { ...item, key };
  });
}

const slug = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 40);

/** `urine output under 0.5 mL/kg/h over 6 hours: open it`. */
export function criterionText({ measure, is, value, over, action }: Criterion): string {
  const limit = [measure, is, value && printQuantity(value)].filter(Boolean).join(' ');
  return `${limit}${over ? ` over ${printQuantity(over)}` : ''}: ${action}`;
}
