import type { SearchRequest, WithId } from '@medplum/core';
import type { FhirRepository } from '@medplum/fhir-router';
import type { Bundle, Resource } from '@medplum/fhirtypes';
import type { SandboxPackages } from './packages.js';

/** The store behind the embedded server: the library's, with versions, deletions and undo added. */
export interface SandboxRepository extends FhirRepository<undefined> {
  /** The resource as stored, without copying; undefined when absent or deleted. */
  peek(type: string, id: string): Resource | undefined;
  wasDeleted(type: string, id: string): boolean;
  /** Every resource stored now, for tests and for the demo's count. */
  all(): Resource[];
  /** Runs `work`; when it rejects, every write since then is undone. Calls must not overlap. */
  atomically<T>(work: () => Promise<T>): Promise<T>;
}

type Rows<T> = Map<string, Map<string, T>>;

/** Makes an empty store. `clock` gives the time that goes into meta.lastUpdated. */
export function createRepository(packages: SandboxPackages, clock: () => Date): SandboxRepository {
  const { core, router } = packages;

  class Repository extends router.MemoryRepository implements SandboxRepository {
    readonly #versions = new Map<string, number>();
    readonly #deleted = new Set<string>();
    /** 'Type?identifier=system|value' to ids that have or had it; candidates only, the search still decides. */
    readonly #byToken = new Map<string, Set<string>>();
    #undo: (() => void)[] | undefined;

    override async createResource<T extends Resource>(resource: T): Promise<WithId<T>> {
      const id = resource.id ?? this.generateId();
      const { resourceType } = resource;
      const key = `${resourceType}/${id}`;
      const before = this.peek(resourceType, id);
      const version = this.#versions.get(key) ?? 0;
      const wasDeleted = this.#deleted.has(key);
      this.#undo?.push(() => {
        if (before) row(rows(this, 'resources'), resourceType).set(id, before);
        else row(rows(this, 'resources'), resourceType).delete(id);
        row(rows<Resource[]>(this, 'history'), resourceType).get(id)?.pop();
        this.#versions.set(key, version);
        if (wasDeleted) this.#deleted.add(key);
      });
      const meta = { ...resource.meta, versionId: String(version + 1), lastUpdated: clock().toISOString() };
      const stored = await super.createResource({ ...resource, id, meta });
      // From here on of the copy: in the engine, a text that was read is a part of the request, which would stay with it.
      const own = `${resourceType}/${stored.id}`;
      this.#versions.set(own, version + 1);
      this.#deleted.delete(own);
      for (const token of tokensOf(stored)) {
        const at = `${resourceType}?${token}`;
        this.#byToken.set(at, (this.#byToken.get(at) ?? new Set()).add(stored.id));
      }
      return stored;
    }

    override async deleteResource(type: string, id: string): Promise<void> {
      const before = this.peek(type, id);
      await super.deleteResource(type, id);
      this.#deleted.add(`${type}/${id}`);
      this.#undo?.push(() => {
        if (before) row(rows(this, 'resources'), type).set(id, before);
        this.#deleted.delete(`${type}/${id}`);
      });
    }

    /** Newest first. The library's own reverses its stored list in place, so every second call lies. */
    override async readHistory<T extends Resource>(type: string, id: string): Promise<Bundle<WithId<T>>> {
      await this.readResource(type, id);
      const versions = [...(row(rows<WithId<T>[]>(this, 'history'), type).get(id) ?? [])].reverse();
      const entry = versions.map(resource => ({ resource: core.deepClone(resource) }));
      return { resourceType: 'Bundle', type: 'history', total: entry.length, entry };
    }

    /** A search for one identifier or tag goes by the index; the library compares every resource of the type. */
    override async search<T extends Resource>(request: SearchRequest<T>): Promise<Bundle<WithId<T>>> {
      const [filter, ...others] = request.filters ?? [];
      if (filter?.code === 'url' && others.length === 0) return this.#byUrl(request, filter.value);
      const byToken =
        (filter?.code === 'identifier' || filter?.code === '_tag') &&
        filter.operator === core.Operator.EQUALS;
      if (!byToken || others.length > 0 || !/^[^|,\\]+\|[^|,\\]+$/.test(filter.value))
        return super.search(request);
      const ids = this.#byToken.get(`${request.resourceType}?${filter.code}=${filter.value}`) ?? [];
      const found: WithId<T>[] = [];
      for (const id of ids) {
        const resource = row(rows<WithId<T>>(this, 'resources'), request.resourceType).get(id);
        if (resource && core.matchesSearchRequest(resource, request)) found.push(core.deepClone(resource));
      }
      const from = request.offset ?? 0;
      const page = found.slice(from, request.count === undefined ? undefined : from + request.count);
      return {
        resourceType: 'Bundle',
        type: 'searchset',
        total: found.length,
        ...(page.length > 0 && { entry: page.map(resource => ({ resource })) }),
      };
    }

    /** FHIR compares an address as a whole; the library takes one that another begins with. */
    async #byUrl<T extends Resource>(request: SearchRequest<T>, url: string): Promise<Bundle<WithId<T>>> {
      const all = [...row(rows<WithId<T>>(this, 'resources'), request.resourceType).values()];
      const found = all.filter(resource => 'url' in resource && resource.url === url);
      const entry = found.slice(0, request.count).map(resource => ({ resource: core.deepClone(resource) }));
      return { resourceType: 'Bundle', type: 'searchset', total: found.length, entry };
    }

    peek(type: string, id: string): Resource | undefined {
      return row(rows<Resource>(this, 'resources'), type).get(id);
    }

    wasDeleted(type: string, id: string): boolean {
      return this.#deleted.has(`${type}/${id}`);
    }

    all(): Resource[] {
      return [...rows<Resource>(this, 'resources').values()].flatMap(byId => [...byId.values()]);
    }

    async atomically<T>(work: () => Promise<T>): Promise<T> {
      const undo: (() => void)[] = [];
      this.#undo = undo;
      try {
        return await work();
      } catch (error) {
        for (const step of undo.reverse()) step();
        throw error;
      } finally {
        this.#undo = undefined;
      }
    }
  }
  return new Repository();
}

/** The library keeps its maps private and has no undo, so they are reached by name and checked. */
function rows<T>(repository: object, name: 'resources' | 'history'): Rows<T> {
  const maps: unknown = Reflect.get(repository, name);
  if (!isRows<T>(maps))
    throw new TypeError(`MemoryRepository has no map '${name}': its version does not fit`);
  return maps;
}

function isRows<T>(value: unknown): value is Rows<T> {
  return value instanceof Map;
}

function row<T>(all: Rows<T>, type: string): Map<string, T> {
  const found = all.get(type) ?? new Map<string, T>();
  all.set(type, found);
  return found;
}

/** What a search for an identifier or a tag with its system would ask for. */
function tokensOf(resource: Resource): string[] {
  const identifier: unknown = 'identifier' in resource ? resource.identifier : undefined;
  const list: unknown[] = Array.isArray(identifier) ? identifier : [identifier];
  return [
    ...list.flatMap(item =>
      typeof item === 'object' && item !== null && 'system' in item && 'value' in item
        ? [`identifier=${String(item.system)}|${String(item.value)}`]
        : [],
    ),
    ...(resource.meta?.tag ?? []).map(({ system, code }) => `_tag=${system}|${code}`),
  ];
}
