import { type ReasonPart, reasonText } from '../../devices/tally/reasons.js';
import { fillPlaces } from '../../findings/places.js';
import { reasonWordsOf } from '../words/reasons.js';
import type { Printer } from './printer.js';

/** Why a device is in its end state, in the language of the report. English stays as the tally has it. */
export function reasonLine(p: Printer, why: ReasonPart): string {
  if (p.language === 'en-GB' || p.language === 'en-US') return reasonText(why);
  const words = reasonWordsOf(p.language);
  const print = (part: ReasonPart): string => {
    if (typeof part === 'string') return part;
    if ('when' in part) return p.when(part.when);
    if ('verb' in part) return words[`verb.${part.verb}`];
    return fillPlaces(words[part.key], part.params, print);
  };
  return print(why);
}
