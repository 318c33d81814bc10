import { byCaseKind } from '../../clinical/look-up.js';
import type { ReferenceLevel } from '../../register/measures/cases.js';
import type { Site } from '../../site/site.js';
import { limitsOf } from '../settings.js';

/** The site's local reference level of the kerma-area product for a kind of case, under any of its names. */
export function levelOfSite(site: Site): (kind: string) => ReferenceLevel | undefined {
  const { local } = limitsOf(site).radiation;
  return kind => byCaseKind(local, kind);
}
