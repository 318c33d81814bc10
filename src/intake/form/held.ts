import type { Json, JsonObject } from '../../json/parse.js';
import type { Tree } from '../../record/read.js';
import { valueAt } from '../../record/tree.js';
import { isObject, listOf, spotIn } from './items.js';
import type { Notes, Spot } from './notes.js';
import type { Fields } from './place.js';

/** Numbers by numbering system. */
interface Numbered {
  readonly system?: string;
  readonly value: string;
}

/**
 * Whom and what the response says that it is about, held against what was answered. Only numbers of the same numbering
 * system are compared: a reference to a resource of a server says nothing that the record could have.
 */
export function heldAgainst(response: JsonObject, fields: Fields, notes: Notes): void {
  const { case: own, patient } = fields;
  const hold = (element: string, linkId: string, answered: readonly Numbered[]) => {
    const given = listOf(response[element]);
    const said = given.flatMap((reference, index) => {
      const number = numberOf(reference);
      const spot: Spot = Array.isArray(response[element])
        ? spotIn(response, element, index, '')
        : { owner: response, name: element, path: element };
      return number ? [{ number, spot }] : [];
    });
    const matched = said.some(({ number }) => answered.some(one => one.value === number.value));
    for (const { number, spot } of matched ? [] : said) {
      const other = answered.find(
        ({ system }) => number.system === undefined || system === undefined || system === number.system,
      );
      if (other)
        notes.say('form.other-subject', spot, { element, said: number.value, linkId, answered: other.value });
    }
  };
  hold('subject', 'patient.identifiers', treesOf(valueAt(patient, ['identifiers'])).flatMap(answeredNumber));
  hold('encounter', 'case.encounter', treesOf(valueAt(own, ['encounter'])).flatMap(answeredNumber));
  hold('basedOn', 'case.order', treesOf(valueAt(own, ['order'])).flatMap(answeredNumber));
}

function numberOf(reference: Json): Numbered | undefined {
  const identifier = isObject(reference) ? reference['identifier'] : undefined;
  if (!isObject(identifier)) return undefined;
  const { system, value } = identifier;
  if (typeof value !== 'string') return undefined;
  return { value: value.trim(), ...(typeof system === 'string' && { system }) };
}

function answeredNumber(tree: Tree): Numbered[] {
  const [system, value] = [valueAt(tree, ['system']), valueAt(tree, ['value'])];
  if (typeof value !== 'string') return [];
  return [{ value: value.trim(), ...(typeof system === 'string' && { system }) }];
}

const treesOf = (tree: Tree | undefined): readonly Tree[] =>
  tree === undefined ? [] : Array.isArray(tree) ? tree : [tree];
