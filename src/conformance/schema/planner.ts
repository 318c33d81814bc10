import type { Definitions } from '../definitions/definitions.js';
import type { Binding, Constraint, ElementType, Structure } from '../definitions/model.js';
import { withSnapshot } from '../definitions/snapshot.js';
import type { Def, Tree } from './definition.js';
import { canonicalOf, treeOf } from './definition.js';
import type { Fitting, Kind, Member, Plan, Planned, Slot, Targets } from './plan.js';
import { branch, slotOf } from './slot.js';

const kinds = { 'primitive-type': 'primitive', 'complex-type': 'complex', resource: 'resource' } as const;

/** Makes plans out of definitions and keeps them. */
export class Planner {
  readonly definitions: Definitions;
  private readonly trees = new Map<Structure, Tree | undefined>();
  private readonly plans = new Map<string, Plan>();
  private readonly kinds = new Map<string, Kind | undefined>();
  private readonly ancestries = new Map<string, readonly string[]>();

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
    let at = branch(slot.plans, type);
    for (const def of extra) at = branch(at.next, def);
    at.plan ??= this.plan(extra.length === 0 ? slot.defs : [...slot.defs, ...extra], type);
    return at.plan;
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
  ancestry(type: string): readonly string[] {
    let names = this.ancestries.get(type);
    if (!names) {
      names = this.climb(type);
      this.ancestries.set(type, names);
    }
    return names;
  }

  private climb(type: string): readonly string[] {
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

  /**
   * Whether the element at `path` below `plan` is a choice; undefined where its parent has several types.
   * `valueQuantity` is no choice, and undefined where the choice has a type derived from Quantity too.
   */
  isChoice(plan: Plan, path: readonly string[]): boolean | undefined {
    let at: Plan | undefined = plan;
    for (const [index, name] of path.entries()) {
      const member: Member | undefined = at?.members.get(name);
      const slot: Slot | undefined = at?.slots.find(s => s.name === name);
      const typed: boolean = member?.slot.choice === true && this.isOnly(member, at);
      if (index === path.length - 1) return slot ? slot.choice : typed ? false : undefined;
      const plain: boolean = slot ? !slot.choice : typed;
      at =
        !plain || member === undefined || this.kindOf(member.type) === 'resource'
          ? undefined
          : this.itemPlan(member.slot, member.type, []);
    }
    return undefined;
  }

  /** No other type of the choice derives from the member's. */
  private isOnly({ slot, type }: Member, plan: Plan | undefined): boolean {
    for (const other of plan?.members.values() ?? []) {
      if (other.slot === slot && other.type !== type && this.ancestry(other.type).includes(type))
        return false;
    }
    return true;
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
      watched: slots.filter(s => s.watched),
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
  const fitting = new Map<string, Fitting>();
  return { profiles, fitting, ...(aggregation.length > 0 && { aggregation }) };
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
