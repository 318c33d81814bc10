import type { Definitions } from '../definitions/definitions.js';
import type { Binding, Constraint, ElementType, Structure } from '../definitions/model.js';
import { withSnapshot } from '../definitions/snapshot.js';
import type { Def, Tree } from './definition.js';
import { canonicalOf, treeOf } from './definition.js';
import type { Kind, Member, Plan, Planned, Slot, Targets } from './plan.js';

const kinds = { 'primitive-type': 'primitive', 'complex-type': 'complex', resource: 'resource' } as const;

/** Makes plans out of definitions and keeps them. */
export class Planner {
  readonly definitions: Definitions;
  private readonly trees = new Map<Structure, Tree | undefined>();
  private readonly plans = new Map<string, Plan>();
  private readonly kinds = new Map<string, Kind | undefined>();

  constructor(definitions: Definitions) {
    this.definitions = definitions;
  }

  /** Tree of the profile or type at `canonical`; a differential gets its snapshot first. */
  tree(canonical: string, lenient = true): Tree | undefined {
    const structure = this.definitions.structure(canonical, lenient);
    return structure && this.treeOf(structure);
  }

  typeTree(type: string): Tree | undefined {
    const structure = this.definitions.type(type);
    return structure && this.treeOf(structure);
  }

  private treeOf(structure: Structure): Tree | undefined {
    if (this.trees.has(structure)) return this.trees.get(structure);
    const full = structure.snapshot.length > 0 ? structure : withSnapshot(structure, this.definitions);
    const tree = full && treeOf(full);
    this.trees.set(structure, tree);
    return tree;
  }

  /** Plan of a value of `type` to which `defs` apply; the type's own definition is added. */
  plan(defs: readonly Def[], type: string): Plan {
    const key = `${type}|${defs.map(d => d.id).join(',')}`;
    let plan = this.plans.get(key);
    if (!plan) {
      plan = this.make(defs, type);
      this.plans.set(key, plan);
    }
    return plan;
  }

  /** Plan of an item of `slot`, with the slices it belongs to and further definitions. */
  itemPlan(slot: Slot, type: string, extra: readonly Def[]): Plan {
    const key = extra.length === 0 ? type : `${type}|${extra.map(d => d.id).join(',')}`;
    let plan = slot.plans.get(key);
    if (!plan) {
      plan = this.plan(extra.length === 0 ? slot.defs : [...slot.defs, ...extra], type);
      slot.plans.set(key, plan);
    }
    return plan;
  }

  /** `defs` with what they refer to: the type, the one profile asked for, content references. */
  expand(defs: readonly Def[], type: string): Expansion {
    const found = new Set<Def>();
    const anyOf: Planned<readonly string[]>[] = [];
    const missing: Planned<string>[] = [];
    const root = this.typeTree(type)?.root;
    if (root) found.add(root);
    for (const def of defs) {
      found.add(def);
      const content = this.contentOf(def);
      if (content) found.add(content);
      const profiles = typesOf(def, type).flatMap(t => t.profile ?? []);
      const [only] = profiles;
      if (profiles.length > 1) anyOf.push({ what: profiles, def });
      else if (only !== undefined) {
        const tree = this.tree(only);
        if (tree) found.add(tree.root);
        else missing.push({ what: only, def });
      }
    }
    return { defs: [...found], anyOf, missing };
  }

  /** The element a content reference points to; a full address names its structure. */
  contentOf(def: Def): Def | undefined {
    const reference = def.element.contentReference;
    if (reference === undefined) return undefined;
    const hash = reference.indexOf('#');
    const id = reference.slice(hash + 1);
    const own = this.treeOf(def.structure);
    const tree = hash > 0 ? this.tree(reference.slice(0, hash)) : own;
    return tree?.byId.get(id) ?? own?.byId.get(id) ?? this.typeTree(def.structure.type)?.byId.get(id);
  }

  /** Type and ancestors, nearest first. */
  ancestry(type: string): string[] {
    const names: string[] = [];
    let structure = this.definitions.type(type);
    while (structure && !names.includes(structure.type)) {
      names.push(structure.type);
      structure =
        structure.baseDefinition === undefined
          ? undefined
          : this.definitions.structure(structure.baseDefinition, true);
    }
    return names;
  }

  kindOf(type: string): Kind | undefined {
    if (this.kinds.has(type)) return this.kinds.get(type);
    const said = this.definitions.type(type)?.kind;
    const kind = said === undefined || said === 'logical' ? undefined : kinds[said];
    this.kinds.set(type, kind);
    return kind;
  }

  /** Whether the element at `path` below `plan` is a choice; undefined where its parent has several types. */
  isChoice(plan: Plan, path: readonly string[]): boolean | undefined {
    let at: Plan | undefined = plan;
    for (const [index, name] of path.entries()) {
      const slot: Slot | undefined = at?.slots.find(s => s.name === name);
      if (!slot) return undefined;
      if (index === path.length - 1) return slot.choice;
      const type: string | undefined = at?.members.get(name)?.type;
      at =
        slot.choice || type === undefined || this.kindOf(type) === 'resource'
          ? undefined
          : this.itemPlan(slot, type, []);
    }
    return undefined;
  }

  private make(given: readonly Def[], type: string): Plan {
    const { defs, anyOf, missing } = this.expand(given, type);
    const slots = this.slotsOf(defs, type);
    const constraints = new Map<string, Planned<Constraint>>();
    const bindings = new Map<string, Planned<Binding>>();
    const targets: Planned<Targets>[] = [];
    for (const def of defs) {
      for (const what of def.element.constraint ?? []) {
        const key = `${what.key}|${what.expression}`;
        if (!constraints.has(key)) constraints.set(key, { what, def });
      }
      const binding = def.element.binding;
      if (binding && (binding.strength !== 'example' || binding.maxValueSet !== undefined)) {
        const id = this.bindingId(binding);
        if (!bindings.has(id)) bindings.set(id, { what: binding, def });
      }
      const allowed = targetsOf(def, type);
      if (allowed) targets.push({ what: allowed, def });
    }
    const base = defs.find(d => d.structure.derivation !== 'constraint' && d.element.path.includes('.'));
    return {
      defs,
      sources: [...new Set(defs.map(d => canonicalOf(d.structure)))],
      type,
      kind: this.kindOf(type) ?? 'complex',
      members: this.membersOf(slots),
      slots,
      constraints: [...constraints.values()],
      bindings: [...bindings.values()],
      values: defs.filter(carriesValue),
      targets,
      anyOf,
      missingProfiles: missing,
      ancestry: this.ancestry(type),
      base: isInline(type) && base ? base.element.path : type,
    };
  }

  /** The same value set, with or without its version, is asked once. */
  private bindingId({ strength, valueSet, maxValueSet }: Binding): string {
    const id = (canonical: string | undefined) => canonical && this.definitions.valueSetId(canonical);
    return `${strength}|${id(valueSet)}|${id(maxValueSet)}`;
  }

  private slotsOf(defs: readonly Def[], type: string): Slot[] {
    const primitive = this.kindOf(type) === 'primitive';
    const byName = new Map<string, Def[]>();
    for (const def of defs) {
      for (const child of def.children) {
        if (primitive && child.name === 'value') continue;
        const known = byName.get(child.name);
        if (known) known.push(child);
        else byName.set(child.name, [child]);
      }
    }
    return [...byName].map(([name, children]) => slotOf(name, children));
  }

  private membersOf(slots: readonly Slot[]): Map<string, Member> {
    const members = new Map<string, Member>();
    for (const slot of slots) {
      for (const def of slot.defs) {
        const source = def.element.type ? def : (this.contentOf(def) ?? def);
        for (const { code } of source.element.type ?? []) {
          const name = slot.choice ? slot.name + code.charAt(0).toUpperCase() + code.slice(1) : slot.name;
          if (!members.has(name)) members.set(name, { slot, type: code, kind: this.kindOf(code) });
        }
      }
    }
    return members;
  }
}

export interface Expansion {
  readonly defs: readonly Def[];
  readonly anyOf: readonly Planned<readonly string[]>[];
  readonly missing: readonly Planned<string>[];
}

function slotOf(name: string, defs: readonly Def[]): Slot {
  const [first] = defs;
  if (!first) throw new RangeError(`No definition of ${name}`);
  let minDef = first;
  let maxDef = first;
  let repeats = false;
  for (const def of defs) {
    if (minOf(def) > minOf(minDef)) minDef = def;
    if (maxOf(def) < maxOf(maxDef)) maxDef = def;
    // An element without max, out of a differential, says nothing of the JSON form.
    if (def.element.max !== undefined && maxOf(def) > 1) repeats = true;
  }
  return {
    name,
    choice: defs.some(d => d.choice),
    repeats,
    min: minOf(minDef),
    minDef,
    max: maxOf(maxDef),
    maxDef,
    defs,
    sliced: defs.filter(d => d.slices.length > 0),
    plans: new Map(),
  };
}

/** Smallest number of occurrences. */
export function minOf(def: Def): number {
  return def.element.min ?? 0;
}

/** Largest number of occurrences; Infinity for `*`. */
export function maxOf(def: Def): number {
  const max = def.element.max;
  return max === undefined || max === '*' ? Number.POSITIVE_INFINITY : Number(max);
}

/** The type entries of `def` that allow `type`. */
function typesOf(def: Def, type: string): readonly ElementType[] {
  return (def.element.type ?? []).filter(t => t.code === type);
}

function targetsOf(def: Def, type: string): Targets | undefined {
  if (type !== 'Reference' && type !== 'canonical') return undefined;
  const entries = typesOf(def, type);
  const profiles = entries.flatMap(t => t.targetProfile ?? []);
  const aggregation = entries.flatMap(t => t.aggregation ?? []);
  if (profiles.length === 0 && aggregation.length === 0) return undefined;
  return aggregation.length > 0 ? { profiles, aggregation } : { profiles };
}

function carriesValue(def: Def): boolean {
  const e = def.element;
  return (
    e.fixed !== undefined ||
    e.pattern !== undefined ||
    e.maxLength !== undefined ||
    e.minValue !== undefined ||
    e.maxValue !== undefined
  );
}

/** Types whose children are written out in the resource that uses them. */
function isInline(type: string): boolean {
  return type === 'BackboneElement' || type === 'Element';
}

/** What to cite for a definition. */
export function sourceOf(def: Def): { profile: string; element: string } {
  return { profile: canonicalOf(def.structure), element: def.element.id };
}
