import type { Definitions } from './definitions.js';
import type { Element, Structure } from './model.js';

/**
 * Gives a profile that was published as a differential only its snapshot: the elements of its base,
 * changed as the differential says, with the elements of types written out where it goes into them.
 * Nothing when the base is not loaded.
 */
export function withSnapshot(structure: Structure, definitions: Definitions): Structure | undefined {
  const elements = snapshotElements(structure, definitions, new Set());
  return elements && { ...structure, snapshot: elements };
}

function snapshotElements(
  structure: Structure,
  definitions: Definitions,
  seen: ReadonlySet<string>,
): readonly Element[] | undefined {
  if (structure.snapshot.length > 0) return structure.snapshot;
  if (structure.baseDefinition === undefined || seen.has(structure.url)) return undefined;
  const base = definitions.structure(structure.baseDefinition, true);
  const inherited = base && snapshotElements(base, definitions, new Set([...seen, structure.url]));
  if (!inherited) return undefined;
  const builder = new Builder([...inherited], structure, definitions);
  for (const element of structure.differential ?? []) builder.apply(element);
  return builder.elements;
}

class Builder {
  readonly elements: Element[];
  private readonly definitions: Definitions;
  private readonly root: string;

  constructor(inherited: Element[], structure: Structure, definitions: Definitions) {
    this.elements = inherited;
    this.definitions = definitions;
    this.root = structure.type;
  }

  apply(change: Element): void {
    const id = this.usualId(change.id);
    const index = this.ensure(id);
    const before = this.elements[index];
    if (before) this.elements[index] = merge(before, { ...change, id, path: pathOf(id) });
  }

  /** Index of element `id`, which is made out of its slice base or its type when it is not there yet. */
  private ensure(id: string): number {
    const known = this.elements.findIndex(e => e.id === id);
    if (known >= 0 || id === this.root) return Math.max(known, 0);
    const dot = id.lastIndexOf('.');
    const colon = id.indexOf(':', dot + 1);
    return colon > 0 ? this.addSlice(id, colon) : this.addChild(id, dot);
  }

  /** A new slice starts as the element it slices, without its slicing and its minimum. */
  private addSlice(id: string, colon: number): number {
    const slash = id.lastIndexOf('/');
    const outer = slash > colon ? id.slice(0, slash) : id.slice(0, colon);
    const sliced = this.elements[this.ensure(outer)];
    if (!sliced) return -1;
    const { slicing: _slicing, ...plain } = sliced;
    return this.insert(outer, { ...plain, id, sliceName: id.slice(colon + 1), min: 0 });
  }

  /** A child comes with its siblings: from the unsliced element, or from the type of its parent. */
  private addChild(id: string, dot: number): number {
    const parentId = id.slice(0, dot);
    const parent = this.elements[this.ensure(parentId)];
    if (!parent) return -1;
    if (!this.elements.some(e => e.id.startsWith(`${parentId}.`))) {
      const children = this.unsliced(parentId) ?? this.ofType(parent);
      for (const { step, element } of children) {
        const childId = `${parentId}.${step}`;
        this.insert(parentId, { ...element, id: childId, path: pathOf(childId) });
      }
    }
    const known = this.elements.findIndex(e => e.id === id);
    return known >= 0 ? known : this.insert(parentId, { id, path: pathOf(id) });
  }

  /** What stands below the element that `parentId` is a slice of. */
  private unsliced(parentId: string): Child[] | undefined {
    const colon = parentId.lastIndexOf(':');
    const plain = parentId.slice(0, colon) + parentId.slice(colon).replace(/^:[^.]*/, '');
    return colon < 0 ? undefined : nonEmpty(below(this.elements, plain));
  }

  private ofType(parent: Element): Child[] {
    if (parent.contentReference !== undefined) {
      const target = parent.contentReference.slice(parent.contentReference.indexOf('#') + 1);
      return below(this.elements, target);
    }
    const [type, ...others] = parent.type ?? [];
    if (!type || others.length > 0) return [];
    const [profile] = type.profile?.length === 1 ? type.profile : [];
    const structure =
      (profile === undefined ? undefined : this.definitions.structure(profile, true)) ??
      this.definitions.type(type.code);
    const elements = structure && snapshotElements(structure, this.definitions, new Set());
    return elements ? below(elements, structure.type) : [];
  }

  /** Puts `element` after everything below and beside `after`. */
  private insert(after: string, element: Element): number {
    const last = this.elements.findLastIndex(
      e => e.id === after || [':', '.', '/'].some(mark => e.id.startsWith(after + mark)),
    );
    this.elements.splice(last + 1, 0, element);
    return last + 1;
  }

  /** `Observation.valueQuantity` in a differential means the slice `value[x]:valueQuantity`. */
  private usualId(id: string): string {
    const dot = id.lastIndexOf('.');
    const name = id.slice(dot + 1);
    if (dot < 0 || name.includes(':') || name.includes('[')) return id;
    const parent = id.slice(0, dot);
    if (this.elements.some(e => e.id === id)) return id;
    const choice = this.elements.find(
      e =>
        e.id.startsWith(`${parent}.`) &&
        e.id.endsWith('[x]') &&
        e.id.lastIndexOf('.') === dot &&
        e.type?.some(
          t => e.id.slice(dot + 1, -3) + t.code.charAt(0).toUpperCase() + t.code.slice(1) === name,
        ),
    );
    return choice ? `${choice.id}:${name}` : id;
  }
}

/** An element below another, by the rest of its id. */
interface Child {
  readonly step: string;
  readonly element: Element;
}

function below(elements: readonly Element[], id: string): Child[] {
  const prefix = `${id}.`;
  return elements
    .filter(e => e.id.startsWith(prefix))
    .map(element => ({ step: element.id.slice(prefix.length), element }));
}

function nonEmpty<T>(items: T[]): T[] | undefined {
  return items.length > 0 ? items : undefined;
}

function pathOf(id: string): string {
  return id.replace(/:[^.]*/g, '');
}

/** What the differential says wins; constraints add up, the rest is kept. */
function merge(before: Element, change: Element): Element {
  const constraint = [...(before.constraint ?? [])];
  for (const added of change.constraint ?? []) {
    if (!constraint.some(c => c.key === added.key)) constraint.push(added);
  }
  return {
    ...before,
    ...change,
    ...(constraint.length > 0 && { constraint }),
    ...(change.slicing && before.slicing && { slicing: { ...before.slicing, ...change.slicing } }),
    ...(change.type && { type: change.type }),
  };
}
