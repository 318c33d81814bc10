import type { Finding } from '../../../findings/finding.js';
import type { GivenValue, Typed } from '../../../intake/contribution.js';

/** Values that were taken from what a record system holds, and what there is to say of those that were not. */
export interface Taken {
  readonly values: readonly GivenValue[];
  readonly findings?: readonly Finding[];
}

const given =
  (as: GivenValue['as']) =>
  (path: readonly string[], value: Typed | undefined, at?: string): GivenValue[] =>
    value === undefined || value === '' ? [] : [{ path, value, as, ...(at !== undefined && { at }) }];

/** A field, where there is a value for it. */
export const set = given('set');
/** A field for a person to take over. */
export const proposed = given('propose');
