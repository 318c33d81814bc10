import { z } from 'zod';
import type { CaseRecord } from '../record/schema/record.js';

const text = z.string().trim().min(1);

/** One rule for which cases go to a destination: every condition that is given must hold. */
export const routeSchema = z.strictObject({
  to: text.describe('Name of the destination'),
  kinds: z.array(text).min(1).optional().describe('Kinds of case, compared without case'),
  categories: z
    .array(z.enum(['therapeutic', 'diagnostic']))
    .min(1)
    .optional(),
  urgencies: z
    .array(z.enum(['elective', 'urgent', 'emergency']))
    .min(1)
    .optional(),
  statuses: z
    .array(z.enum(['preliminary', 'final', 'amended', 'appended', 'withdrawn']))
    .min(1)
    .optional()
    .describe('States of the report'),
});

/** The destinations that a case goes to by the rules, each once, in the order of the rules. */
export function routesOf(
  rules: readonly z.output<typeof routeSchema>[],
  { case: head, report }: Pick<CaseRecord, 'case' | 'report'>,
): string[] {
  const among = (list: readonly string[] | undefined, value: string | undefined) =>
    list === undefined ||
    (value !== undefined && list.some(one => one.toLowerCase() === value.toLowerCase()));
  const fitting = rules.filter(
    rule =>
      among(rule.kinds, head.kind) &&
      among(rule.categories, head.category) &&
      among(rule.urgencies, head.urgency) &&
      among(rule.statuses, report.status),
  );
  return [...new Set(fitting.map(rule => rule.to))];
}
