import type { DeviceFamily } from '../../devices/types.js';
import { entriesOf } from '../../record/entries.js';
import type { AftercareEntry, CaseRecord } from '../../record/schema/record.js';
import { sameCaseKind } from '../../trade/cases/table.js';
import { isKind } from '../look-up.js';

/** One line of a site's aftercare policy. */
export interface AftercareRule {
  /** An item of the record with this key, about the same device, takes the place of the rule. */
  readonly key?: string;
  /** Kind of device as written or as Casetally names it, or its family; absent: the rule is about the case. */
  readonly kind?: string;
  /** Kind of case; absent: every one. */
  readonly case?: string;
  readonly what: string;
  /** Spans from the day of the case, such as `6 weeks`. */
  readonly earliest?: string;
  readonly due?: string;
  readonly latest?: string;
  readonly when?: string;
  readonly criteria?: NonNullable<AftercareEntry['criteria']>;
  readonly every?: string;
  readonly for?: string;
  readonly by: string;
  readonly call?: string;
  readonly ifMissed?: string;
  readonly source: string;
}

/** A rule that applies to a case, and to which device. */
export interface Applied {
  readonly rule: AftercareRule;
  readonly device?: string;
  /** Where in the record it applies: the entry of what was left, or the kind of case. */
  readonly path: string;
  /** Item of the record that takes its place. */
  readonly replacedBy?: number;
}

/** Rules that meet the case: one for each device left of the rule's kind, or one for the case. */
export function rulesFor(
  record: CaseRecord,
  devices: ReadonlyMap<string, { readonly kind: string; readonly family?: DeviceFamily }>,
  rules: readonly AftercareRule[],
): Applied[] {
  const left = entriesOf(record.left);
  const seen = new Set<string>();
  return rules.flatMap((rule, number): Applied[] => {
    const { kind } = rule;
    if (rule.case !== undefined && !sameCaseKind(rule.case, record.case.kind)) return [];
    if (kind === undefined) return [applied(record, rule, 'case.kind')];
    return left.flatMap(({ device, part }, index): Applied[] => {
      const known = devices.get(device);
      const kinds = [known?.kind, record.devices?.[device]?.kind];
      const meets = known?.family === kind || kinds.some(one => one !== undefined && isKind(kind, one));
      // A device that stands in several lines of what was left is still one device; a part is not the device.
      const id = `${number} ${device}`;
      if (!meets || part !== undefined || seen.has(id)) return [];
      seen.add(id);
      return [applied(record, rule, `left[${index}]`, device)];
    });
  });
}

function applied(record: CaseRecord, rule: AftercareRule, path: string, device?: string): Applied {
  const replacedBy =
    rule.key === undefined
      ? -1
      : (record.aftercare ?? []).findIndex(item => item.key === rule.key && item.device === device);
  return {
    rule,
    path,
    ...(device !== undefined && { device }),
    ...(replacedBy >= 0 && { replacedBy }),
  };
}
