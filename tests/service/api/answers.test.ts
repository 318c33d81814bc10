import { describe, expectTypeOf, it } from 'vitest';
import type { ItemState } from '../../../src/delivery/outbox/outbox.js';
import type { FindingRow } from '../../../src/findings/finding.js';
import type { AftercareRow, CalculationRow, NotCheckedRow, TallyRow } from '../../../src/pipeline/check.js';
import type { Audience } from '../../../src/report/options.js';
import type * as page from '../../../web/answers.js';

/* The page is compiled apart from the service: its idea of the answers must be what the service sends. */
describe('the answers as the page reads them', () => {
  it('are those of the service', () => {
    expectTypeOf<FindingRow>().toExtend<page.Finding>();
    expectTypeOf<FindingRow['severity']>().toEqualTypeOf<page.Severity>();
    expectTypeOf<TallyRow>().toExtend<page.TallyRow>();
    expectTypeOf<CalculationRow>().toExtend<page.Calculation>();
    expectTypeOf<NotCheckedRow>().toExtend<page.NotChecked>();
    expectTypeOf<AftercareRow>().toExtend<page.AftercareItem>();
    expectTypeOf<Audience>().toEqualTypeOf<page.Reader>();
    expectTypeOf<ItemState>().toEqualTypeOf<page.Item['state']>();
  });
});
