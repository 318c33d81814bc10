import { english, type Part } from '../../clinical/said.js';
import { fillPlaces } from '../../findings/places.js';
import { isWordKey } from '../words/lexicon.js';
import { workedWordsOf } from '../words/worked.js';
import type { Printer } from './printer.js';

/** What a calculation says, in the language of the report. English stays as the calculation has it. */
export function workedPart(p: Printer, part: Part): string {
  if (p.language === 'en-GB' || p.language === 'en-US') return english(part);
  const phrases = workedWordsOf(p.language);
  const print = (one: Part): string => {
    if (typeof one === 'string') return one;
    if ('key' in one) return fillPlaces(phrases[one.key], one.params, print);
    if ('quantity' in one) return p.quantity(one.quantity);
    if ('number' in one) return p.decimal(one.number);
    if ('when' in one) return p.when(one.when);
    if ('moment' in one) return p.fullMoment(one.moment);
    if ('day' in one) return p.date(one.day);
    if ('device' in one) return p.named(one.device);
    if ('list' in one) return one.list.map(print).join(', ');
    const key = `${one.term}.${one.value}`;
    return isWordKey(key) ? p.say(key) : one.value;
  };
  return print(part);
}
