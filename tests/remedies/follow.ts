import { remedyOf } from '../../src/findings/finding.js';
import { eventWays } from './event-ways.js';
import { fieldWays } from './field-ways.js';
import { type Data, withValue } from './place.js';
import type { Told } from './told.js';

/**
 * Does what a remedy says, as it is written and nothing more: a field that it names gets a value of the examples, a value
 * that it names is written where the finding stands. Empty where it names neither.
 */
export function followed(told: Told): readonly Data[] {
  const text = remedyOf(told.found);
  return [...fieldWays, ...eventWays].flatMap(({ says, does }) => {
    const match = says.exec(text);
    return match ? does(told, match) : [];
  });
}

/** The record in which somebody accepted the finding, where its remedy says that it may be. */
export function accepted({ data, found }: Told): readonly Data[] {
  return /\b(?:acknowledge|accept)\b/i.test(remedyOf(found))
    ? [withValue(data, 'acknowledged[+]', { finding: found.code, about: found.path, reason: 'As it was' })]
    : [];
}
