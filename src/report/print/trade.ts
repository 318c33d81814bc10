import { caseNamed, deviceNamed, drugNamed, placeNamed, valueNamed } from '../../clinical/named.js';
import type { Lexicon } from '../../findings/say.js';

/** Words of the record that a table of the trade knows, in the reader's language; all others as they were written. */
export function tradeNames({ text }: Lexicon) {
  return {
    drug: (written: string) => text(drugNamed(written)),
    value: (written: string) => text(valueNamed(written)),
    caseKind: (written: string) => text(caseNamed(written)),
    /** A device that a text of another field names whole. */
    thing: (written: string) => text(deviceNamed(written)),
    place: (written: string) => text(placeNamed(written)),
  };
}
