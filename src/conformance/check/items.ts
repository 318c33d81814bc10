import type { Json, JsonObject } from '../../json/parse.js';
import type { Slot } from '../schema/plan.js';
import { isObject } from './equal.js';
import type { Place } from './place.js';
import type { Run } from './run.js';
import { shown } from './values.js';

/** One occurrence of an element and its place, in one object since there is one for every value; a primitive may have a companion with id and extensions. */
export interface ItemValue extends Place {
  value: Json | undefined;
  companion: JsonObject | undefined;
}

/**
 * Reads the occurrences of one element out of its JSON member and, for primitives, the member with an
 * underscore. Source: R4 JSON page, representation of primitive elements and of repeating elements.
 */
export function readItems(
  run: Run,
  owner: JsonObject,
  name: string,
  slot: Slot,
  primitive: boolean,
  parent: Place,
): readonly ItemValue[] {
  const value = owner[name];
  const companion = primitive ? owner[`_${name}`] : undefined;
  if (!slot.repeats) {
    const key = value === undefined ? `_${name}` : name;
    const item: ItemValue = {
      parent,
      name: slot.name,
      index: -1,
      owner,
      key,
      value: undefined,
      companion: undefined,
    };
    item.value = scalar(run, value, item);
    item.companion = companionOf(run, companion, item);
    return item.value === undefined && item.companion === undefined ? [] : [item];
  }
  const whole = (): Place => ({
    parent,
    name: slot.name,
    index: -1,
    owner,
    key: value === undefined ? `_${name}` : name,
  });
  const values = array(run, value, whole);
  const besides = array(run, companion, whole);
  if (values && besides && values.length !== besides.length) {
    const problem = `the arrays ${name} and _${name} have ${values.length} and ${besides.length} items`;
    run.report('conformance.null-padding', whole(), { problem });
  }
  const items: ItemValue[] = [];
  const length = Math.max(values?.length ?? 0, besides?.length ?? 0);
  for (let index = 0; index < length; index += 1) {
    const item: ItemValue = {
      parent,
      name: slot.name,
      index,
      owner: values ?? besides ?? owner,
      key: String(index),
      value: values?.[index] ?? undefined,
      companion: undefined,
    };
    const beside = besides?.[index] ?? undefined;
    if (item.value === undefined && beside === undefined) {
      run.report('conformance.null-padding', item, {
        problem: `item ${index} of ${name} is null in all arrays`,
      });
      continue;
    }
    item.companion = companionOf(run, beside, item);
    items.push(item);
  }
  return items;
}

function scalar(run: Run, value: Json | undefined, place: Place): Json | undefined {
  if (value === null) {
    run.report('conformance.empty', place, { what: 'The value null' });
    return undefined;
  }
  if (Array.isArray(value)) {
    run.report('conformance.json-type', place, { expected: 'a single value', found: 'an array' });
    return undefined;
  }
  return value;
}

function array(run: Run, value: Json | undefined, place: () => Place): readonly Json[] | undefined {
  if (value === undefined) return undefined;
  if (!Array.isArray(value)) {
    run.report('conformance.json-type', place(), { expected: 'an array', found: shown(value) });
    return value === null ? undefined : [value as Json];
  }
  if (value.length === 0) {
    run.report('conformance.empty', place(), { what: 'The array' });
    return undefined;
  }
  return value;
}

function companionOf(run: Run, value: Json | undefined, place: Place): JsonObject | undefined {
  if (value === undefined) return undefined;
  if (isObject(value)) {
    if (Object.keys(value).length > 0) return value as JsonObject;
    run.report('conformance.empty', place, { what: 'The object beside the primitive' });
    return undefined;
  }
  run.report('conformance.json-type', place, {
    expected: 'an object with id or extension',
    found: shown(value),
  });
  return undefined;
}
