import { type Finding, finding } from '../../findings/finding.js';
import type { RegistryDefinition } from '../../registry/definition/schema.js';
import { COARSEST, coarser, groupsOf, stepOf } from '../../registry/disclosure/coarser.js';
import type { EntryElements } from '../../registry/entry/elements.js';
import type { SubmittedCase } from '../../registry/submission.js';
import type { TakenCase } from './collect.js';

type Alike = NonNullable<RegistryDefinition['alike']>;

/** What of a case goes out. */
export const fitElements = ({ entries }: TakenCase): EntryElements[] =>
  entries.flatMap(({ fit, elements }) => (fit ? [elements] : []));

/** How coarse a case is to be, or that it is withheld, and what there is to say of it. */
export function stepOfCase(
  one: TakenCase,
  alike: Alike | undefined,
  counts: ReadonlyMap<string, number>,
): { readonly step: number | undefined; readonly findings: readonly Finding[] } {
  const fit = fitElements(one);
  if (!alike || fit.length === 0) return { step: 0, findings: [] };
  const step = stepOf(fit, alike, counts);
  const params = { case: one.id, count: `${alike.least}` };
  if (step === 0) return { step, findings: [] };
  if (step === undefined && alike.otherwise === 'withhold')
    return { step, findings: [finding('registry.too-few-alike', '', params)] };
  return { step: step ?? COARSEST, findings: [finding('registry.few-alike', '', params)] };
}

/** Cases as they are submitted, where people are counted among the cases themselves. Findings go by file. */
export function alikeWithin(
  cases: readonly TakenCase[],
  definition: RegistryDefinition | undefined,
): {
  readonly entered: readonly SubmittedCase[];
  readonly findings: ReadonlyMap<string, readonly Finding[]>;
} {
  const alike = definition?.alike;
  const people = new Map<string, Set<string>>();
  if (alike)
    for (const one of cases)
      for (const group of groupsOf(fitElements(one), alike)) {
        const known = people.get(group) ?? new Set();
        for (const { elements } of one.entries) known.add(elements.patient);
        people.set(group, known);
      }
  const counts = new Map([...people].map(([group, known]) => [group, known.size]));
  const findings = new Map<string, readonly Finding[]>();
  const entered = cases.map((one): SubmittedCase => {
    const { pseudonym, fate } = one;
    const { step, findings: said } = stepOfCase(one, alike, counts);
    if (said.length > 0) findings.set(one.file, said);
    if (step === undefined) return { pseudonym, fate: 'held back', entries: [] };
    return { pseudonym, fate, entries: fitElements(one).map(elements => coarser(elements, step)) };
  });
  return { entered, findings };
}
