import { type Finding, finding } from '../../findings/finding.js';
import type { RegistryDefinition } from '../../registry/definition/schema.js';
import { COARSEST, coarser, groupsOf, stepOf } from '../../registry/disclosure/coarser.js';
import type { EntryElements } from '../../registry/entry/elements.js';
import type { CaseFate } from '../../registry/submission.js';
import type { BuildScratch, KeptCase, TakenCase } from './collect.js';

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

/**
 * Works out the lines of a submission, where people are counted among its cases themselves, and leaves them in the scratch,
 * with what there is to say of each case.
 * @param onCase what became of each case
 */
export function alikeWithin(
  cases: Iterable<KeptCase>,
  definition: RegistryDefinition | undefined,
  scratch: BuildScratch,
  onCase: (one: TakenCase, fate: CaseFate, entries: number) => void,
): void {
  const alike = definition?.alike;
  if (alike)
    for (const one of cases) {
      const people = new Set(one.entries.map(({ elements }) => elements.patient));
      for (const group of groupsOf(fitElements(one), alike))
        for (const person of people) scratch.addAlike(group, person, alike.least);
    }
  for (const one of cases) {
    const fit = fitElements(one);
    const groups = alike ? groupsOf(fit, alike) : [];
    const counts = new Map(groups.map(group => [group, scratch.alike(group, alike?.least ?? 0)]));
    const { step, findings } = stepOfCase(one, alike, counts);
    if (step !== undefined)
      for (const elements of fit) scratch.addLine(elements.entry, coarser(elements, step));
    if (findings.length > 0) scratch.replace(one.seq, { ...one, findings: [...one.findings, ...findings] });
    if (step === undefined) onCase(one, 'held back', 0);
    else onCase(one, one.fate, fit.length);
  }
}
