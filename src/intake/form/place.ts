import type { JsonObject } from '../../json/parse.js';
import { pathText } from '../../record/path.js';
import { FORBIDDEN, type Tree } from '../../record/read.js';
import { saidBy } from './answers.js';
import { type Found, isObject, itemsUnder, listOf, spotIn } from './items.js';
import {
  type FormNode,
  type GroupNode,
  isGroupNode,
  itemsOf,
  type KeyedItem,
  type ListItem,
  type QuestionNode,
} from './node.js';
import type { Notes, Spot } from './notes.js';

/** Fields of the record by name. */
export type Fields = Record<string, Tree>;
type Path = readonly PropertyKey[];

/** Puts the answers of a response where the record has them. */
export class Placing {
  /** Where each field of the record was answered. */
  readonly spots = new Map<string, Spot>();
  readonly #notes: Notes;

  constructor(notes: Notes) {
    this.#notes = notes;
  }

  /** The fields that the items within an element fill in, in the order of the form. */
  fieldsOf(owner: JsonObject, nodes: readonly FormNode[], path: string, to: Path): Fields {
    const items = itemsUnder(owner, nodes, path, this.#notes);
    const fields = new Map<string, Tree>();
    for (const node of nodes) {
      const found = items.get(node.linkId) ?? [];
      const value = found.length > 0 ? this.#fieldOf(node, found, [...to, node.name]) : undefined;
      if (value === undefined) continue;
      const none = `${node.linkId}.none`;
      // Of `none` and a list, the list is kept: that there was nothing must not be said by mistake.
      if (fields.has(node.name)) this.#contradiction(none, node.linkId, items.get(none) ?? []);
      fields.set(node.name, value);
    }
    return Object.fromEntries(fields);
  }

  #fieldOf(node: FormNode, found: readonly Found[], to: Path): Tree | undefined {
    const [first] = found;
    if (first) this.spots.set(pathText(to), first.spot);
    if (!isGroupNode(node)) return this.#answered(node, found, to);
    for (const { item, spot } of found)
      if ('answer' in item)
        this.#notes.say('form.wrong-type', spot, {
          ...{ linkId: node.linkId, expected: 'item', found: 'answer' },
          value: this.#notes.leave(spot, item['answer'] ?? null),
        });
    if (node.kind === 'list') return this.#list(node, found, to);
    if (node.kind === 'keyed') return this.#keyed(node, found, to);
    this.#once(node.linkId, found);
    return first && this.#group(node, first, to);
  }

  #group(node: GroupNode, { item, spot }: Found, to: Path): Tree | undefined {
    const fields = this.fieldsOf(item, itemsOf(node), spot.path, to);
    const names = Object.keys(fields);
    if (node.kind === 'group' && node.present) {
      const { [node.present.name]: said, ...rest } = fields;
      return Object.keys(rest).length > 0 || said === true ? rest : undefined;
    }
    if (node.kind === 'group' && node.short === 'text' && 'text' in fields) {
      const { text, ...parts } = fields;
      if (names.length === 1) return text;
      this.#contradiction(`${node.linkId}.text`, node.linkId, [{ item, spot }]);
      return parts;
    }
    return names.length > 0 ? fields : undefined;
  }

  #list(node: ListItem, found: readonly Found[], to: Path): Tree | undefined {
    const entries: Tree[] = [];
    for (const one of found) {
      const at = [...to, entries.length];
      const entry = this.#group(node, one, at);
      if (entry === undefined) continue;
      this.spots.set(pathText(at), one.spot);
      entries.push(entry);
    }
    return entries.length > 0 ? entries : undefined;
  }

  #keyed(node: KeyedItem, found: readonly Found[], to: Path): Tree | undefined {
    const entries = new Map<string, Tree>();
    for (const { item, spot } of found) {
      const key = this.#keyOf(node, item);
      const at = [...to, key ?? ''];
      const { key: _key, ...fields } = this.fieldsOf(item, itemsOf(node), spot.path, at);
      if (key === undefined && Object.keys(fields).length === 0) continue;
      if (key !== undefined && !FORBIDDEN.has(key) && !entries.has(key)) {
        this.spots.set(pathText(at), spot);
        entries.set(key, fields);
        continue;
      }
      const { linkId } = node.key;
      const value = this.#notes.leave(spot, item);
      if (key === undefined) this.#notes.say('form.no-key', spot, { linkId, value });
      else this.#notes.say('form.bad-key', spot, { linkId, key: key.slice(0, 60), value });
    }
    return entries.size > 0 ? Object.fromEntries(entries) : undefined;
  }

  /** The key of an entry, looked at ahead of its other fields. */
  #keyOf(node: KeyedItem, item: JsonObject): string | undefined {
    const own = listOf(item['item'])
      .filter(isObject)
      .find(one => one['linkId'] === node.key.linkId);
    const [answer] = listOf(own?.['answer']).filter(isObject);
    const key = answer?.['valueString'];
    return typeof key === 'string' && key.trim() !== '' ? key.trim() : undefined;
  }

  #answered(node: QuestionNode, found: readonly Found[], to: Path): Tree | undefined {
    const repeats = 'repeats' in node && node.repeats;
    if (!repeats) this.#once(node.linkId, found);
    const values: Tree[] = [];
    for (const { item, spot } of repeats ? found : found.slice(0, 1)) {
      if ('item' in item) itemsUnder(item, [], spot.path, this.#notes);
      listOf(item['answer']).forEach((answer, index) => {
        const at = spotIn(item, 'answer', index, spot.path);
        const value = isObject(answer)
          ? saidBy(node, answer, at, this.#notes)
          : this.#notes.say('form.wrong-type', at, {
              ...{ linkId: node.linkId, expected: 'answer', found: typeof answer },
              value: this.#notes.leave(at, answer),
            });
        if (value === undefined || !isObject(answer)) return;
        if (!repeats && values.length > 0) this.#twice(node.linkId, at, answer);
        else values.push(this.#withCodes(node, value, answer, at, [...to, values.length]));
      });
    }
    const [only] = values;
    return repeats && values.length > 0 ? values : only;
  }

  /** A text with the codes beneath it. */
  #withCodes(node: QuestionNode, text: Tree, answer: JsonObject, spot: Spot, to: Path): Tree {
    const nodes = node.kind === 'coded' ? [node.codes] : [];
    const { codes } = this.fieldsOf(answer, nodes, spot.path, to);
    return codes === undefined ? text : { text, codes };
  }

  #once(linkId: string, found: readonly Found[]): void {
    for (const { item, spot } of found.slice(1)) this.#twice(linkId, spot, item);
  }

  #twice(linkId: string, spot: Spot, content: JsonObject): void {
    this.#notes.say('form.twice', spot, { linkId, value: this.#notes.leave(spot, content) });
  }

  #contradiction(linkId: string, other: string, found: readonly Found[]): void {
    for (const { item, spot } of found)
      this.#notes.say('form.contradiction', spot, { linkId, other, value: this.#notes.leave(spot, item) });
  }
}
