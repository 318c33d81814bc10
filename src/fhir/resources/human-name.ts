import type { HumanName } from 'fhir/r4.js';
import type { NameParts } from '../../record/schema/name.js';

/** A name as it is shown, with its parts where the record gives them, so that a search by family or given name finds it. */
export function humanName({
  name,
  nameParts,
}: {
  readonly name: string;
  readonly nameParts?: NameParts | undefined;
}): HumanName {
  if (!nameParts) return { text: name };
  const { family, given, prefix, suffix } = nameParts;
  return {
    text: name,
    family,
    ...(given && { given: [...given] }),
    ...(prefix !== undefined && { prefix: [prefix] }),
    ...(suffix !== undefined && { suffix: [suffix] }),
  };
}
