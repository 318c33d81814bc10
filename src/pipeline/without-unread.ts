import type { Finding } from '../findings/finding.js';
import { pathSegments } from '../record/path.js';
import { isGroup, type TreeGroup } from '../record/tree.js';

/** Without these nobody knows where a device is. */
const TELLS: Readonly<Record<'events' | 'devices' | 'parts', ReadonlySet<PropertyKey>>> = {
  events: new Set([
    ...['do', 'device', 'part', 'at', 'over', 'through', 'with', 'replaces', 'count', 'pieces', 'state'],
  ]),
  devices: new Set(['kind', 'count', 'parts', 'use', 'carried', 'implant']),
  parts: new Set(['kind', 'count']),
};

/**
 * A record without what cannot be read in it and does not tell where devices are: a size, a depth, a target of which
 * nothing was said yet. Undefined where more than that cannot be read.
 */
export function withoutUnread(record: TreeGroup, unread: readonly Finding[]): TreeGroup | undefined {
  const copy = structuredClone(record);
  return unread.every(({ path }) => takenOut(copy, pathSegments(path))) ? copy : undefined;
}

/** False for what has to be read. */
function takenOut(record: TreeGroup, [list, key, field, inner, innermost]: readonly PropertyKey[]): boolean {
  const entries = record[String(list)];
  if (key === undefined || typeof entries !== 'object') return false;
  const all = entries as Record<PropertyKey, TreeGroup[string]>;
  const entry = all[key];
  // Events name them by their keys alone.
  if (list === 'targets') {
    all[key] = { what: '-' };
    return true;
  }
  if (!isGroup(entry)) return false;
  if (list === 'access') {
    all[key] = { ...(entry['key'] !== undefined && { key: entry['key'] }), site: '-' };
    return true;
  }
  if (list === 'devices' && field === 'carried') return without(entry['carried'], inner);
  if (list === 'devices' && field === 'parts') {
    const parts = entry['parts'];
    const part = isGroup(parts) ? parts[String(inner)] : undefined;
    return innermost !== undefined && !TELLS.parts.has(innermost) && without(part, innermost);
  }
  return (list === 'events' || list === 'devices') && field !== undefined && !TELLS[list].has(field)
    ? without(entry, field)
    : false;
}

function without(group: TreeGroup[string] | undefined, field: PropertyKey | undefined): boolean {
  if (!isGroup(group) || typeof field !== 'string') return false;
  // What was taken out with another fault of the same field is out.
  delete group[field];
  return true;
}
