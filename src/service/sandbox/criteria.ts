import type { Resource } from '@medplum/fhirtypes';
import type { DigitBook } from './digits.js';
import type { SandboxPackages } from './packages.js';
import type { ProfileCheck } from './profiles.js';
import { refuse } from './reply.js';
import type { SandboxRepository } from './repository.js';

/** The packages and the store that every interaction works with. */
export interface Sandbox {
  readonly packages: SandboxPackages;
  readonly repository: SandboxRepository;
  /** How decimals were written, which the store does not keep. */
  readonly digits: DigitBook;
  /** Checks what is to be stored by its profiles; absent: not looked at. */
  readonly profiles?: ProfileCheck;
  /** Types that nobody may write. */
  readonly locked?: ReadonlySet<string>;
}

/**
 * The resources that match search criteria such as `identifier=urn:oid:1.2|3` on one type, two at most.
 * Criteria that are empty or name an unknown parameter are refused: matching everything or nothing by
 * accident is how duplicates are made.
 */
export async function matches(
  { packages, repository }: Sandbox,
  type: string,
  criteria: string,
): Promise<Resource[]> {
  checkCriteria(packages, type, criteria);
  const request = packages.core.parseSearchRequest(`${type}?${criteria}`);
  return repository.searchResources({ ...request, count: 2 });
}

/** Refuses criteria that are empty or hold a parameter that the type does not have. */
export function checkCriteria({ core }: SandboxPackages, type: string, criteria: string): void {
  const codes = [...new URLSearchParams(criteria).keys()].map(key => key.split(/[:.]/)[0] ?? key);
  if (codes.length === 0) throw refuse(400, 'required', `The search on ${type} has no criteria`);
  for (const code of codes) {
    if (!code.startsWith('_') && !core.getSearchParameter(type, code)) {
      throw refuse(400, 'not-supported', `${type} has no search parameter '${code}'`);
    }
  }
}
