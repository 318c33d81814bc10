import type { JsonObject } from '../../json/parse.js';
import { isObject } from './equal.js';

export interface IndexedEntry {
  readonly index: number;
  readonly fullUrl?: string;
  readonly resource?: JsonObject;
}

/** The entries of a Bundle by address, made once a Bundle. */
export class BundleIndex {
  readonly type: string;
  readonly entries: readonly IndexedEntry[];
  private readonly byUrl = new Map<string, IndexedEntry>();
  private readonly byIdentity = new Map<string, IndexedEntry>();

  constructor(bundle: JsonObject) {
    this.type = typeof bundle['type'] === 'string' ? bundle['type'] : '';
    const raw = Array.isArray(bundle['entry']) ? bundle['entry'] : [];
    this.entries = raw.map((entry, index) => indexed(entry, index));
    for (const entry of this.entries) {
      if (entry.fullUrl !== undefined && !this.byUrl.has(entry.fullUrl)) this.byUrl.set(entry.fullUrl, entry);
      const { resource } = entry;
      if (typeof resource?.['id'] === 'string') {
        const identity = `${String(resource['resourceType'])}/${resource['id']}`;
        if (!this.byIdentity.has(identity)) this.byIdentity.set(identity, entry);
      }
    }
  }

  /**
   * The entry `reference` means when it stands in the entry `from`. Source: R4 bundle page, resolving
   * references in bundles. A relative reference counts from the base of the entry's own fullUrl; where
   * that has none, it is matched by type and id.
   */
  find(reference: string, from: string | undefined): IndexedEntry | undefined {
    const exactly = this.byUrl.get(reference);
    if (exactly && !SPECIFIC.test(reference)) return exactly;
    const plain = reference.replace(/\/_history\/[^/]+$/, '').replace(/#.*$/, '');
    const exact = this.byUrl.get(plain);
    if (exact || isAbsolute(plain)) return exact;
    const base = from === undefined ? undefined : baseOf(from);
    return base === undefined ? this.byIdentity.get(plain) : this.byUrl.get(base + plain);
  }
}

function indexed(entry: unknown, index: number): IndexedEntry {
  if (!isObject(entry)) return { index };
  const { fullUrl, resource } = entry;
  return {
    index,
    ...(typeof fullUrl === 'string' && { fullUrl }),
    ...(isObject(resource) && { resource: resource as JsonObject }),
  };
}

/** True for references with a scheme: `http://…`, `urn:uuid:…`. */
export function isAbsolute(reference: string): boolean {
  return /^[A-Za-z][A-Za-z0-9+.-]*:/.test(reference);
}

/** A reference with a version or a fragment. */
const SPECIFIC = /#|\/_history\//;

const RESTFUL =
  /^(https?:\/\/.*\/)?([A-Z][A-Za-z]+)\/([A-Za-z0-9\-.]{1,64})(?:\/_history\/([A-Za-z0-9\-.]{1,64}))?$/;

/** Parts of a reference in RESTful form: base, type, id, version. */
export function restful(
  reference: string,
): { base: string; type: string; id: string; version?: string } | undefined {
  const found = RESTFUL.exec(reference);
  if (!found) return undefined;
  const [, base = '', type = '', id = '', version] = found;
  return { base, type, id, ...(version !== undefined && { version }) };
}

function baseOf(fullUrl: string): string | undefined {
  const parts = restful(fullUrl);
  return parts && parts.base !== '' ? parts.base : undefined;
}
