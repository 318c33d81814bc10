import { CasetallyError } from '../../findings/errors.js';
import { entryPseudonym } from '../../registry/entry/device.js';
import type { PseudonymKey } from '../../registry/options.js';
import { pseudonym } from '../../registry/pseudonym.js';
import type { Line, Submissions } from '../../registry/store/submissions.js';

/** A pseudonym under a former key, and what stands for the same under the present one. */
export interface PseudonymPair {
  readonly kind: 'entry' | 'case' | 'patient';
  readonly old: string;
  readonly new: string;
}

/**
 * Pairs every pseudonym that was sent under a former key with the one of the present key, so that a registry can join
 * them. Both are worked out anew: what the former key does not give as it was sent is no secret of this registry.
 *
 * @throws CasetallyError 'settings-invalid' where the former secret is another than the one that was used.
 */
export async function pseudonymPairs(
  registry: string,
  former: PseudonymKey,
  present: PseudonymKey,
  submissions: Pick<Submissions, 'sentUnder'>,
): Promise<readonly PseudonymPair[]> {
  const pairs = new Map<string, PseudonymPair>();
  for (const line of await submissions.sentUnder(registry, former.id)) {
    const [was, is] = [pseudonymsOf(line, former), pseudonymsOf(line, present)];
    const { entry, case: of, patient } = line.elements;
    if (was.entry !== entry || was.case !== of || was.patient !== patient)
      throw new CasetallyError(
        'settings-invalid',
        `the former secret '${former.id}' of registry '${registry}' does not give the pseudonyms that were sent under it: it is another secret, or the patients' numbers are of another system now. Nothing was written.`,
      );
    for (const kind of ['entry', 'case', 'patient'] as const)
      pairs.set(was[kind], { kind, old: was[kind], new: is[kind] });
  }
  return [...pairs.values()].sort((a, b) => (a.old < b.old ? -1 : 1));
}

function pseudonymsOf({ name, number }: Line, key: PseudonymKey): Record<PseudonymPair['kind'], string> {
  return {
    entry: entryPseudonym(key, name.case, name, name.action),
    case: pseudonym(key, 'case', name.case),
    patient: pseudonym(key, 'patient', `${number.system}|${number.value}`),
  };
}
