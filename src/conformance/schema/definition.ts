import type { Element, Structure } from '../definitions/model.js';

/** One element of a structure, with its children and slices: the tree behind the flat snapshot. */
export interface Def {
  /** Unique in the process; plans are kept by it. */
  readonly id: number;
  readonly structure: Structure;
  readonly element: Element;
  /** Element name without `[x]`. */
  readonly name: string;
  /** True for `value[x]` and the like. */
  readonly choice: boolean;
  readonly children: readonly Def[];
  readonly slices: readonly Def[];
}

/** A compiled structure. */
export interface Tree {
  readonly structure: Structure;
  readonly root: Def;
  /** By element id. */
  readonly byId: ReadonlyMap<string, Def>;
}

interface Draft extends Def {
  readonly children: Draft[];
  readonly slices: Draft[];
}

let lastId = 0;

/** Builds the tree of a snapshot. Slices hang on the element they slice, re-slices on their slice. */
export function treeOf(structure: Structure): Tree | undefined {
  const byId = new Map<string, Draft>();
  let root: Draft | undefined;
  for (const element of structure.snapshot) {
    const draft = draftOf(structure, element);
    byId.set(element.id, draft);
    if (!root) {
      root = draft;
      continue;
    }
    const dot = element.id.lastIndexOf('.');
    const last = element.id.slice(dot + 1);
    const colon = last.indexOf(':');
    if (colon < 0) byId.get(element.id.slice(0, dot))?.children.push(draft);
    else sliced(byId, element.id, dot + 1 + colon)?.slices.push(draft);
  }
  return root && { structure, root, byId };
}

/** The element that slice `id` slices: for `a:x/y` the slice `a:x`, if there is one, else `a`. */
function sliced(byId: ReadonlyMap<string, Draft>, id: string, colon: number): Draft | undefined {
  const slash = id.lastIndexOf('/');
  const outer = slash > colon ? byId.get(id.slice(0, slash)) : undefined;
  return outer ?? byId.get(id.slice(0, colon));
}

function draftOf(structure: Structure, element: Element): Draft {
  const last = element.path.slice(element.path.lastIndexOf('.') + 1);
  const choice = last.endsWith('[x]');
  lastId += 1;
  return {
    id: lastId,
    structure,
    element,
    name: choice ? last.slice(0, -3) : last,
    choice,
    children: [],
    slices: [],
  };
}

/** Canonical address with version. */
export function canonicalOf(structure: Structure): string {
  return structure.version === undefined ? structure.url : `${structure.url}|${structure.version}`;
}
