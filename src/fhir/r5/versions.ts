import { clinicalDefaults, clinicalTables } from './clinical.js';
import { deviceTables } from './devices.js';
import { documentTables } from './document.js';
import { procedureTables } from './procedure.js';
import type { Built, Fields } from './steps.js';
import { build, fields, listOf } from './steps.js';

/** Releases of FHIR that a submission can be written in. */
export const fhirVersions = ['4.0.1', '4.3.0', '5.0.0'] as const;
export type FhirVersion = (typeof fhirVersions)[number];

const tables = { ...deviceTables, ...procedureTables, ...clinicalTables, ...documentTables };

/**
 * The R5 (5.0.0) form of an R4 resource, by a table written for its type; undefined for a type that has none: it
 * is then refused, never passed on as it is. Pure.
 */
export function toR5(resource: object): Built | undefined {
  const from: Fields = { ...resource };
  const type = String(from['resourceType']);
  const table = Object.hasOwn(tables, type) ? tables[type] : undefined;
  if (!table) return undefined;
  const { contained, ...own } = from;
  const built = build(
    { ...(Object.hasOwn(clinicalDefaults, type) && clinicalDefaults[type]), ...own },
    table,
  );
  const inside = listOf(contained).map(item => ({ was: fields(item), now: toR5(fields(item)) }));
  return {
    resource: {
      ...fields(renamed(built.resource)),
      ...(inside.length > 0 && { contained: inside.map(({ now }) => now?.resource) }),
    },
    losses: [...new Set([...built.losses, ...inside.flatMap(({ now }) => now?.losses ?? [])])],
    unknown: [
      ...built.unknown,
      ...inside.flatMap(({ was, now }) => now?.unknown ?? [`${type}.contained: ${was['resourceType']}`]),
    ],
  };
}

/**
 * The R4B (4.3.0) form of an R4 resource: the same elements for every type that a case is mapped to; only claims
 * of R4 profiles stay behind. Undefined for a type that a case has not. Source: FHIR R4B, changes from R4, and the
 * structure definitions of both.
 */
export function toR4B(resource: object): Built | undefined {
  const from: Fields = { ...resource };
  const type = String(from['resourceType']);
  if (!Object.hasOwn(tables, type)) return undefined;
  const { meta, ...rest } = from;
  const { profile, ...kept }: Record<string, unknown> = { ...(typeof meta === 'object' ? meta : {}) };
  const losses = profile === undefined ? [] : [`${type}.meta: claims of R4 profiles`];
  const { resourceType, ...elements } = rest;
  const result = { resourceType, ...(Object.keys(kept).length > 0 && { meta: kept }), ...elements };
  return { resource: result, losses, unknown: [] };
}

/** The R5 name of a resource type. */
export function typeInR5(type: string): string {
  return (Object.hasOwn(tables, type) ? tables[type]?.type : undefined) ?? type;
}

/** References to types that have another name, by address, query or type. Objects without one stay the same objects. */
function renamed(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const list: unknown[] = value;
    const copy = list.map(renamed);
    return copy.some((item, i) => item !== list[i]) ? copy : value;
  }
  const changes: [string, unknown][] = [];
  for (const [key, inner] of Object.entries(value)) {
    const after = key === 'reference' || key === 'type' ? renamedText(inner, key) : renamed(inner);
    if (after !== inner) changes.push([key, after]);
  }
  // A copy by assignment keeps the digits of exact quantities.
  return changes.length === 0 ? value : Object.assign({}, value, Object.fromEntries(changes));
}

function renamedText(value: unknown, key: string): unknown {
  if (typeof value !== 'string') return renamed(value);
  const [, type, rest] = /^([A-Z]\w*)([/?].*)?$/s.exec(value) ?? [];
  if (type === undefined || (key === 'type') !== (rest === undefined)) return value;
  return `${typeInR5(type)}${rest ?? ''}`;
}
