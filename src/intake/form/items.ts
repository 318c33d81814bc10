import type { Json, JsonObject } from '../../json/parse.js';
import { nodeByLinkId } from './model.js';
import type { FormNode } from './node.js';
import type { Notes, Spot } from './notes.js';

/** An item of the response that is where the form has it. */
export interface Found {
  readonly item: JsonObject;
  readonly spot: Spot;
}

export const isObject = (value: Json | undefined): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The members of an array; what should be one and is none counts as its only member. */
export const listOf = (value: Json | undefined): readonly Json[] =>
  value === undefined ? [] : Array.isArray(value) ? (value as readonly Json[]) : [value];

/** The spot of a member of an array of `owner`. */
export function spotIn(owner: JsonObject, name: string, index: number, path: string): Spot {
  const list = owner[name];
  const at = `${path === '' ? '' : `${path}.`}${name}[${index}]`;
  return Array.isArray(list) ? { owner: list, name: `${index}`, path: at } : { owner, name, path: at };
}

/** Sorts the items within an element to those of the form; says of every other that it has no place. */
export function itemsUnder(
  owner: JsonObject,
  nodes: readonly FormNode[],
  path: string,
  notes: Notes,
): ReadonlyMap<string, readonly Found[]> {
  const found = new Map<string, Found[]>();
  const known = new Set(nodes.map(({ linkId }) => linkId));
  listOf(owner['item']).forEach((item, index) => {
    const spot = spotIn(owner, 'item', index, path);
    const linkId = isObject(item) ? item['linkId'] : undefined;
    if (!isObject(item) || typeof linkId !== 'string') {
      notes.say('form.unknown-item', spot, { linkId: '', value: notes.leave(spot, item) });
      return;
    }
    if ('modifierExtension' in item) {
      const value = notes.leave(spot, item);
      notes.say('form.not-understood', spot, { element: 'modifierExtension', value });
    } else if (known.has(linkId)) {
      const alike = found.get(linkId) ?? [];
      alike.push({ item, spot });
      found.set(linkId, alike);
    } else if (!isHelp(linkId, item)) {
      const elsewhere = nodeByLinkId.has(linkId);
      const params = { linkId, value: notes.leave(spot, item) };
      if (elsewhere) notes.say('form.misplaced', spot, { ...params, group: groupOf(linkId) });
      else notes.say('form.unknown-item', spot, params);
    }
  });
  return found;
}

/** Text beside a question, which some systems send along. */
const isHelp = (linkId: string, item: JsonObject) =>
  linkId.endsWith('.help') &&
  nodeByLinkId.has(linkId.slice(0, -5)) &&
  !('answer' in item) &&
  !('item' in item);

/** The item that an item of the form stands in, which may be the response itself. */
function groupOf(linkId: string): string {
  const parts = linkId.split('.');
  while (parts.pop() !== undefined) {
    const group = parts.join('.');
    if (nodeByLinkId.has(group)) return group;
  }
  return 'QuestionnaireResponse';
}
