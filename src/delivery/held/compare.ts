import {
  type ExactJson,
  type ExactObject,
  isExactArray,
  isExactNumber,
  isExactObject,
} from '../answer/exact-json.js';
import { sameXhtml } from './same-xhtml.js';

/** How something held differs from what was sent. */
type DifferenceKind = 'dropped' | 'changed' | 'added' | 'digits' | 'placeholder-left';

/** One difference. The values may hold patient data: shown, never logged. */
export interface Difference {
  readonly kind: DifferenceKind;
  /** From the resource: `Procedure.performer[0].actor.reference`. */
  readonly path: string;
  readonly sent?: string;
  readonly held?: string;
  /** True when what differs identifies the patient, the device or the side: a person must look. */
  readonly alarm: boolean;
}

/** A difference and the entry it is about. */
export interface EntryDifference extends Difference {
  readonly fullUrl: string;
  /** `Type/id` of what is held, where that is known. */
  readonly address?: string;
}

/**
 * Where each entry of the submission ended up: `urn:uuid:…` to `Procedure/12`, and its business identifier as
 * `system|value` to the same, since references go by either.
 */
export type Places = ReadonlyMap<string, string>;

const ALARMING =
  /\.(udiCarrier|lotNumber|serialNumber|distinctIdentifier|bodySite|laterality|subject|patient|device)\b/;
/** What a server assigns, and the narrative it may write itself. */
const SERVER_ASSIGNED: ReadonlySet<string> = new Set(['id', 'meta']);

/**
 * Lists how a resource that a server holds differs from the one sent, leaving out what servers assign (id,
 * meta) and counting a reference as equal when it leads to where its target ended up. A number that lost or
 * gained trailing zeros is of kind 'digits'.
 */
export function compareResource(sent: ExactObject, held: ExactObject, places: Places): Difference[] {
  const type = typeof sent['resourceType'] === 'string' ? sent['resourceType'] : 'Resource';
  const found: Difference[] = [];
  const add = (kind: DifferenceKind, path: string, was?: ExactJson, is?: ExactJson) => {
    const alarm =
      kind === 'placeholder-left' || ((kind === 'dropped' || kind === 'changed') && ALARMING.test(path));
    found.push({
      kind,
      path,
      alarm,
      ...(was !== undefined && { sent: shown(was) }),
      ...(is !== undefined && { held: shown(is) }),
    });
  };

  const compare = (
    was: ExactJson | undefined,
    is: ExactJson | undefined,
    path: string,
    key: string,
  ): void => {
    if (was === undefined) {
      if (is !== undefined && key !== 'text') add('added', path, undefined, is);
    } else if (is === undefined) {
      add('dropped', path, was);
    } else if (isExactNumber(was) && isExactNumber(is)) {
      if (was.value !== is.value) add(sameNumber(was.value, is.value) ? 'digits' : 'changed', path, was, is);
    } else if (isExactArray(was) && isExactArray(is)) {
      for (let i = 0; i < Math.max(was.length, is.length); i += 1)
        compare(was[i], is[i], `${path}[${i}]`, key);
    } else if (isExactObject(was) && isExactObject(is)) {
      const same = sameTarget(was, is, places) ? WAYS_TO_REFER : NONE;
      for (const k of new Set([...Object.keys(was), ...Object.keys(is)])) {
        if (same.has(k)) continue;
        if (path !== type || !SERVER_ASSIGNED.has(k)) compare(was[k], is[k], `${path}.${k}`, k);
      }
    } else if (!sameScalar(was, is, key, places)) {
      const left = key === 'reference' && typeof is === 'string' && isPlaceholder(is);
      add(left ? 'placeholder-left' : 'changed', path, was, is);
    }
  };
  compare(sent, held, type, '');
  return found;
}

const WAYS_TO_REFER: ReadonlySet<string> = new Set(['reference', 'identifier', 'type']);
const NONE: ReadonlySet<string> = new Set();

/**
 * True for two references to one resource of which one goes by address and the other by identifier: which of them is
 * written depends on the way of sending (see `withoutCircles`), and says nothing about the case.
 */
function sameTarget(was: ExactObject, is: ExactObject, places: Places): boolean {
  const [byAddress, byIdentifier] = 'reference' in was ? [was, is] : [is, was];
  const { reference } = byAddress;
  const { identifier } = byIdentifier;
  if (typeof reference !== 'string' || 'reference' in byIdentifier || !isExactObject(identifier))
    return false;
  const place = places.get(`${identifier['system']}|${identifier['value']}`);
  return (
    place !== undefined &&
    sameReference(byAddress === was ? reference : place, byAddress === was ? place : reference, places)
  );
}

function sameScalar(was: ExactJson, is: ExactJson, key: string, places: Places): boolean {
  if (key === 'reference' && typeof was === 'string' && typeof is === 'string')
    return sameReference(was, is, places);
  if (was === is) return true;
  return key === 'div' && typeof was === 'string' && typeof is === 'string' && sameXhtml(was, is);
}

/** Equal when it is where the target ended up, relative, absolute or with a version; or a match of the type. */
function sameReference(was: string, is: string, places: Places): boolean {
  const plain = is.replace(/\/_history\/[\w.-]+$/, '');
  const place = places.get(was);
  if (place !== undefined) return plain === place || plain.endsWith(`/${place}`);
  // Where its target ended up is not known: any literal reference may be it, a placeholder left over is not.
  if (isPlaceholder(was)) return !isPlaceholder(is);
  const conditional = /^([A-Z]\w*)\?/.exec(was)?.[1];
  if (conditional) return new RegExp(`(^|/)${conditional}/[^/]+$`).test(plain);
  return was === plain || plain.endsWith(`/${was}`);
}

function isPlaceholder(reference: string): boolean {
  return /^urn:(uuid|oid):/.test(reference);
}

/** 5.0 and 5, 0.70 and 7e-1: the same number with other digits. */
function sameNumber(a: string, b: string): boolean {
  return Number(a) === Number(b) && significant(a) === significant(b);
}

function significant(text: string): string {
  const mantissa = text.toLowerCase().split('e')[0] ?? '';
  return mantissa.replace(/[-+.]/g, '').replace(/^0+|0+$/g, '');
}

function shown(value: ExactJson): string {
  if (isExactNumber(value)) return value.value;
  if (isExactArray(value)) return `[${value.length}]`;
  if (isExactObject(value)) return '{…}';
  const text = String(value);
  return text.length > 120 ? `${text.slice(0, 119)}…` : text;
}
