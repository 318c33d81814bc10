import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { Disagreement } from './compare.js';

/** Who erred, and the sentence of the standard that says so. */
const explanation = z.strictObject({
  /** `family/operator`, or `family/*`. */
  operator: z.string(),
  /** `missed`: the reference alone has errors. `stricter`: ours alone has. */
  side: z.enum(['missed', 'stricter']),
  /** Every error of the side that has them must match one of its explanations' patterns. */
  issue: z.string(),
  /** Narrows to examples whose id matches. */
  example: z.string().optional(),
  wrong: z.enum(['reference', 'ours, by choice', 'neither']),
  reason: z.string().min(30),
  standard: z.string().min(20),
  source: z.string().min(5),
});
export type Explanation = z.infer<typeof explanation>;

export function explanations(): Explanation[] {
  const text = readFileSync(join(import.meta.dirname, 'explained.json'), 'utf8');
  return z.array(explanation).parse(JSON.parse(text));
}

/** The explanations that together cover every error of the disagreement; undefined when one error has none. */
export function explain(
  disagreement: Disagreement,
  known: readonly Explanation[],
): Explanation[] | undefined {
  const { pair, side, issues } = disagreement;
  const candidates = known.filter(
    e =>
      e.side === side &&
      (e.operator === `${pair.family}/${pair.operator}` ||
        e.operator === `${pair.family}/*` ||
        e.operator === '*') &&
      (e.example === undefined || new RegExp(e.example).test(pair.example)),
  );
  const used = issues.map(issue =>
    candidates.find(e => new RegExp(e.issue, 's').test(`${issue.rule ?? ''}: ${issue.message}`)),
  );
  return used.includes(undefined) ? undefined : [...new Set(used)].filter(e => e !== undefined);
}

/**
 * How many disagreements the standard decides for ours: every error in them is explained by `wrong: reference`.
 * A choice of ours, an open question and what has no explanation do not count. `remembered` of them rest on
 * at least one sentence that is marked as given from memory.
 */
export function decidedByStandard(reasons: Iterable<readonly Explanation[] | undefined>): {
  decided: number;
  remembered: number;
} {
  let decided = 0;
  let remembered = 0;
  for (const covering of reasons) {
    if (!covering || covering.length === 0 || covering.some(e => e.wrong !== 'reference')) continue;
    decided += 1;
    if (covering.some(e => e.standard.includes('from memory'))) remembered += 1;
  }
  return { decided, remembered };
}
