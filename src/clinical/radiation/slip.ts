import { type Message, message } from '../../findings/message.js';
import type { Decimal } from '../../record/decimal.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { Limit } from '../limits.js';
import { either } from '../limits.js';

/** The dose figures of a case, where there are any. */
export type Radiation = Exclude<NonNullable<CaseRecord['radiation']>, 'none'>;

/** True for a value between two limits, either of which may be off. */
export const within = (value: Decimal, least: Limit | undefined, most: Limit | undefined): boolean =>
  !(least && value.lt(least.value)) && !(most && value.gt(most.value));

/** Whose limits they are, each source once. */
export const sourceOf = (least: Limit | undefined, most: Limit | undefined): string =>
  [...new Set([least?.source, most?.source])].filter(source => source !== undefined).join('; ');

/** In words, which slip of a unit would bring a ratio of two figures back between its limits. */
export function slipOf(ratio: Decimal, least: Limit | undefined, most: Limit | undefined): Message {
  const factors = [10, 100, 1000].filter(
    f => within(ratio.times(f), least, most) || within(ratio.div(f), least, most),
  );
  return factors.length > 0 && !ratio.isZero()
    ? message('slip.times', { factor: either(factors.map(String)) })
    : message('slip.none');
}
