import type { Json, JsonObject } from '../../json/parse.js';
import { toUnit } from '../terminology/units.js';
import { hasContent, isObject, sameJson } from './equal.js';
import type { Native } from './native.js';
import { has } from './native.js';
import { nativeBundles } from './native-bundles.js';
import { nativeTimes } from './native-times.js';
import type { Scope } from './place.js';
import { containedOf, resolve } from './resolve.js';

/**
 * Published invariants that are written here by hand, because they are evaluated everywhere or because
 * their expression visits all entries for each entry. Found by the exact expression, so a profile that
 * words a key in another way is evaluated as it is written. tests/conformance/native-invariants.test.ts
 * holds each against its FHIRPath.
 */
export const nativeInvariants: ReadonlyMap<string, Native> = new Map<string, Native>([
  // ele-1
  ['hasValue() or (children().count() > id.count())', value => !isObject(value) || hasContent(value)],
  // ext-1
  ['extension.exists() != value.exists()', value => has(value, 'extension') !== hasChoice(value, 'value')],
  // dom-2
  ['contained.contained.empty()', value => !contained(value).some(c => has(c, 'contained'))],
  // dom-4
  [
    'contained.meta.versionId.empty() and contained.meta.lastUpdated.empty()',
    value => !contained(value).some(c => has(c['meta'], 'versionId') || has(c['meta'], 'lastUpdated')),
  ],
  // dom-5
  ['contained.meta.security.empty()', value => !contained(value).some(c => has(c['meta'], 'security'))],
  // dom-6; contained resources have no narrative of their own
  [
    'text.`div`.exists()',
    (value, scope) => scope.resource !== scope.root || (isObject(value) && has(value['text'], 'div')),
  ],
  // dom-3
  [
    "contained.where((('#'+id in (%resource.descendants().reference | %resource.descendants().as(canonical) | %resource.descendants().as(uri) | %resource.descendants().as(url))) or descendants().where(reference = '#').exists() or descendants().where(as(canonical) = '#').exists() or descendants().where(as(canonical) = '#').exists()).not()).trace('unmatched', id).empty()",
    allContainedUsed,
  ],
  // dom-3 of R5, in whose CodeableReference an element named reference is no text
  [
    "contained.where((('#'+id in (%resource.descendants().reference | %resource.descendants().ofType(canonical) | %resource.descendants().ofType(uri) | %resource.descendants().ofType(url))) or descendants().where(reference = '#').exists() or descendants().where(ofType(canonical) = '#').exists() or descendants().where(ofType(canonical) = '#').exists()).not()).trace('unmatched', id).empty()",
    allContainedUsed,
  ],
  // ref-1: a dangling fragment is reported by the reference check, which names the id.
  [
    "reference.startsWith('#').not() or (reference.substring(1).trace('url') in %rootResource.contained.id.trace('ids'))",
    () => true,
  ],
  // txt-1 and txt-2: the narrative check reports what is wrong.
  ['htmlChecks()', () => true],
  // qty-3, cpt-2
  ['code.empty() or system.exists()', value => !has(value, 'code') || has(value, 'system')],
  ['value.empty() or system.exists()', value => !hasChoice(value, 'value') || has(value, 'system')],
  // ctm-1: iif() on an empty input must still give its first result
  [
    'onBehalfOf.exists() implies (member.resolve().iif(empty(), true, ofType(Practitioner).exists()))',
    (value, scope) => {
      if (!isObject(value) || !has(value, 'onBehalfOf')) return true;
      const reference = isObject(value['member']) ? value['member']['reference'] : undefined;
      const target = typeof reference === 'string' ? resolve(reference, scope) : undefined;
      return !target || target.resource['resourceType'] === 'Practitioner';
    },
  ],
  // org-2, org-3
  ["where(use = 'home').empty()", value => !isObject(value) || value['use'] !== 'home'],
  // con-3; a CodeableConcept never equals a text, so any category asks for a status
  [
    "clinicalStatus.exists() or verificationStatus.coding.where(system='http://terminology.hl7.org/CodeSystem/condition-ver-status' and code = 'entered-in-error').exists() or category.select($this='problem-list-item').empty()",
    value => has(value, 'clinicalStatus') || !has(value, 'category') || enteredInError(value),
  ],
  // rng-2: quantities without code are compared when their units are written alike
  [
    'low.empty() or high.empty() or (low <= high)',
    value => !isObject(value) || inOrder(value['low'], value['high']),
  ],
  // org-1, ipn-1
  ['(identifier.count() + name.count()) > 0', value => has(value, 'identifier') || has(value, 'name')],
  // obs-7
  [
    'value.empty() or component.code.where(coding.intersect(%resource.code.coding).exists()).empty()',
    value => !hasChoice(value, 'value') || !componentRepeatsCode(value),
  ],
  ...nativeBundles,
  ...nativeTimes,
]);

/** A choice element in any of its types, with a value or only an extension. */
function hasChoice(value: unknown, name: string): boolean {
  if (!isObject(value)) return false;
  for (const key in value) {
    const plain = key.startsWith('_') ? key.slice(1) : key;
    if (plain === name || (plain.startsWith(name) && /[A-Z]/.test(plain.charAt(name.length)))) return true;
  }
  return false;
}

function contained(value: Json): JsonObject[] {
  return isObject(value) && value['contained'] !== undefined ? containedOf(value as JsonObject) : [];
}

/** dom-3: each contained resource is referred to from the resource, or refers to its container. */
function allContainedUsed(value: Json, scope: Scope): boolean {
  const all = contained(value);
  if (all.length === 0) return true;
  const fragments = new Set<string>();
  collect(scope.resource, fragments);
  return all.every(c => {
    if (typeof c['id'] === 'string' && fragments.has(`#${c['id']}`)) return true;
    const own = new Set<string>();
    collect(c, own);
    return own.has('#');
  });
}

function collect(value: unknown, into: Set<string>): void {
  if (typeof value === 'string') {
    if (value.startsWith('#')) into.add(value);
  } else if (Array.isArray(value)) {
    for (const item of value) collect(item, into);
  } else if (isObject(value)) {
    for (const key in value) collect(value[key], into);
  }
}

/** Whether a quantity is at most another; the reason when their units cannot be compared. */
function inOrder(low: unknown, high: unknown): boolean | string {
  if (!isObject(low) || !isObject(high)) return true;
  const [a, b] = [low['value'], high['value']];
  if (typeof a !== 'number' || typeof b !== 'number') return true;
  const unit = (q: Readonly<Record<string, unknown>>) =>
    typeof q['code'] === 'string' ? q['code'] : q['unit'];
  if (unit(low) === unit(high)) return a <= b;
  const { code: from } = low;
  const { code: to } = high;
  const converted = typeof from === 'string' && typeof to === 'string' ? toUnit(a, from, to) : undefined;
  return converted === undefined ? 'the units of low and high cannot be compared' : converted <= b;
}

/** obs-7: a component has a coding that the observation itself has. */
function componentRepeatsCode(value: Json): boolean {
  if (!isObject(value) || !Array.isArray(value['component'])) return false;
  const own = codingsOf(value['code']);
  return value['component'].some(
    c => isObject(c) && codingsOf(c['code']).some(coding => own.some(o => sameJson(o, coding))),
  );
}

function codingsOf(concept: unknown): readonly unknown[] {
  return isObject(concept) && Array.isArray(concept['coding']) ? concept['coding'] : [];
}

function enteredInError(value: Json): boolean {
  const codings = isObject(value) ? codingsOf(value['verificationStatus']) : [];
  const system = 'http://terminology.hl7.org/CodeSystem/condition-ver-status';
  return codings.some(c => isObject(c) && c['system'] === system && c['code'] === 'entered-in-error');
}
