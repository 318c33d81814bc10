import type { Binding, ElementType } from '../definitions/model.js';
import type { Def } from './definition.js';
import type { Slot } from './plan.js';
import type { Planner } from './planner.js';
import { maxOf, minOf } from './slot.js';

/**
 * Tells which elements profiles constrain beyond their type. A trial of a resource against a profile can
 * pass over the others: what the type asks is checked where the resource stands.
 */
export class AsksMore {
  private readonly planner: Planner;
  private readonly known = new Map<Slot, boolean>();

  constructor(planner: Planner) {
    this.planner = planner;
  }

  of(slot: Slot): boolean {
    const known = this.known.get(slot);
    if (known !== undefined) return known;
    // Elements that contain themselves: a constraint shows on the first round.
    this.known.set(slot, false);
    const more = this.decide(slot);
    this.known.set(slot, more);
    return more;
  }

  private decide(slot: Slot): boolean {
    const own = slot.defs.filter(d => d.structure.derivation === 'constraint');
    const base = slot.defs.filter(d => d.structure.derivation !== 'constraint');
    if (own.length === 0) return false;
    if (base.length === 0 || own.some(d => this.differs(d, base))) return true;
    if (own.every(d => d.children.length === 0)) return false;
    const types = new Set(base.flatMap(d => d.element.type ?? []).map(t => t.code));
    const [type] = types;
    if (types.size !== 1 || type === undefined) return true;
    return this.planner.itemPlan(slot, type, []).slots.some(s => this.of(s));
  }

  private differs(def: Def, base: readonly Def[]): boolean {
    const e = def.element;
    if (e.fixed || e.pattern || e.minValue || e.maxValue || e.maxLength !== undefined || e.slicing)
      return true;
    if (def.slices.length > 0) return true;
    if (base.every(b => minOf(def) > minOf(b)) || base.every(b => maxOf(def) < maxOf(b))) return true;
    if (e.binding && !base.some(b => sameBinding(e.binding, b.element.binding))) return true;
    if (e.type && !base.some(b => sameTypes(e.type, b.element.type))) return true;
    const published = new Set(
      base
        .flatMap(b => [b, ...this.roots(b)])
        .flatMap(d => d.element.constraint ?? [])
        .map(c => c.key),
    );
    return (e.constraint ?? []).some(c => !published.has(c.key));
  }

  /** Root definitions of the element's types: snapshots repeat their invariants on the element. */
  private roots(def: Def): Def[] {
    return (def.element.type ?? []).flatMap(t => this.planner.typeTree(t.code)?.root ?? []);
  }
}

function sameBinding(a: Binding | undefined, b: Binding | undefined): boolean {
  return (
    a?.strength === b?.strength &&
    plain(a?.valueSet) === plain(b?.valueSet) &&
    plain(a?.maxValueSet) === plain(b?.maxValueSet)
  );
}

function sameTypes(a: readonly ElementType[] | undefined, b: readonly ElementType[] | undefined): boolean {
  const text = (types: readonly ElementType[] | undefined) =>
    JSON.stringify(
      (types ?? []).map(t => [t.code, t.profile?.map(plain), t.targetProfile?.map(plain), t.aggregation]),
    );
  return text(a) === text(b);
}

/** Snapshots write base canonicals with or without the version of the release. */
function plain(canonical: string | undefined): string | undefined {
  return canonical?.replace(/\|4\.0\.1$/, '');
}
