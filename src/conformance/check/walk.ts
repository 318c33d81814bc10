import type { Json, JsonObject, Source } from '../../json/parse.js';
import type { Def } from '../schema/definition.js';
import type { Member, Plan, Slot } from '../schema/plan.js';
import { checkBindings } from './bindings.js';
import { checkBundle } from './bundle.js';
import { BundleIndex } from './bundle-index.js';
import { checkCount } from './cardinality.js';
import { claimed, profileRoot, profilesFor, reportUnknownType } from './claims.js';
import { checkContained } from './contained.js';
import type { Item, Matchers } from './discriminator.js';
import { fullUrlOf } from './entries.js';
import { hasContent, isObject } from './equal.js';
import { extensionDefs } from './extensions.js';
import type { Invariants } from './invariants.js';
import { readItems } from './items.js';
import { checkChoiceType, isSecond, reportUnknown } from './members.js';
import { checkNarrative } from './narrative.js';
import type { Place, Scope } from './place.js';
import { checkPrimitive } from './primitive-value.js';
import type { Target } from './resolve.js';
import type { Run, Verdict } from './run.js';
import { CONFORMS } from './run.js';
import { sliceItems } from './slicing.js';
import { checkTyped } from './typed.js';
import { checkValues, shown } from './values.js';

const NO_DEFS: readonly Def[] = [];

/** Goes through a resource once and has every check look at every value. */
export class Walk {
  private readonly run: Run;
  private readonly invariants: Invariants;
  private readonly matchers: Matchers;
  private readonly source: Source | undefined;

  constructor(run: Run, invariants: Invariants, matchers: Matchers, source: Source | undefined) {
    this.run = run;
    this.invariants = invariants;
    this.matchers = matchers;
    this.source = source;
    run.trial = (target, profile) => this.trial(target, profile);
  }

  /** Checks a resource against its type, the profiles it claims, `defs` and `profiles`. */
  resource(value: JsonObject, defs: readonly Def[], scope: Scope, profiles: readonly string[] = []): void {
    const { run } = this;
    const type = String(value['resourceType']);
    const structure = run.planner.definitions.type(type);
    if (structure?.kind !== 'resource') {
      reportUnknownType(run, type, scope.place);
      return;
    }
    if (structure.abstract) {
      run.report('conformance.abstract-type', scope.place, { type });
      return;
    }
    const roots = new Set(defs);
    for (const profile of [...claimed(value), ...profiles]) {
      const root = profileRoot(run, profile, type, scope.place);
      if (root) roots.add(root);
    }
    const plan = run.planner.plan([...roots], type);
    const bundle = type === 'Bundle' ? new BundleIndex(value) : undefined;
    // A Bundle in a Bundle is a world of its own.
    const inner: Scope = bundle ? { resource: value, root: value, place: scope.place, bundle } : scope;
    this.object(value, plan, scope.place, inner);
    checkContained(run, value, scope.place);
    if (bundle) checkBundle(run, bundle, scope.place, inner);
  }

  /** Whether `target` conforms to `profile`; asked once for each pair. */
  private trial({ resource, scope }: Target, profile: string): Verdict {
    const { run } = this;
    let verdicts = run.conforming.get(resource);
    if (!verdicts) {
      verdicts = new Map();
      run.conforming.set(resource, verdicts);
    }
    const known = verdicts.get(profile);
    // Resources that refer to each other are taken to conform while they are being tried.
    if (known === 'pending') return CONFORMS;
    if (known) return known;
    verdicts.set(profile, 'pending');
    const type = String(resource['resourceType']);
    const verdict = run.aside(() => {
      const root = profileRoot(run, profile, type, scope.place, true);
      if (root) this.object(resource, run.planner.plan([root], type), scope.place, scope);
    });
    verdicts.set(profile, verdict);
    return verdict;
  }

  /** Checks a complex value: members, counts, slices, then what its definitions say of it as a whole. */
  private object(value: JsonObject, plan: Plan, place: Place, scope: Scope): void {
    const { run } = this;
    run.applied.add(plan);
    let seen: Map<Slot, string> | undefined;
    for (const key in value) {
      if (key === 'resourceType' && plan.kind === 'resource') continue;
      const name = key.charCodeAt(0) === 95 ? key.slice(1) : key;
      const member = plan.members.get(name);
      if (!member || (name !== key && member.kind !== 'primitive')) {
        reportUnknown(run, value, key, plan, place);
        continue;
      }
      if (name !== key && value[name] !== undefined) continue;
      if (member.slot.watched) {
        seen ??= new Map();
        if (isSecond(run, value, key, member.slot, seen, place)) continue;
      }
      this.element(value, name, member, plan, place, scope);
    }
    for (const slot of plan.watched) {
      if (seen?.has(slot)) continue;
      if (slot.min > 0) checkCount(run, slot, 0, place, slot.choice ? `${slot.name}[x]` : slot.name);
      else if (slot.sliced.length > 0) sliceItems(run, this.matchers, slot, [], scope, place);
    }
    this.whole(value, plan, place, scope);
  }

  /** Checks all items of one element. */
  private element(
    value: JsonObject,
    name: string,
    member: Member,
    plan: Plan,
    place: Place,
    scope: Scope,
  ): void {
    const { run } = this;
    const { slot, type } = member;
    if (run.trying && !run.asksMore.of(slot)) return;
    if (slot.choice) checkChoiceType(run, value, name, member, place);
    const primitive = member.kind === 'primitive';
    const items = readItems(run, value, name, slot, primitive, place);
    checkCount(run, slot, items.length, place, slot.choice ? `${slot.name}[x]` : slot.name);
    const slices =
      slot.sliced.length > 0
        ? sliceItems(
            run,
            this.matchers,
            slot,
            items.map((i): Item => ({ value: i.value ?? i.companion ?? null, type, place: i })),
            scope,
            place,
          )
        : undefined;
    let index = 0;
    for (const item of items) {
      const extra = slices?.[index++] ?? NO_DEFS;
      this.item(item.value, item.companion, type, slot, extra, plan, item, scope, primitive);
    }
  }

  private item(
    value: Json | undefined,
    companion: JsonObject | undefined,
    type: string,
    slot: Slot,
    extra: readonly Def[],
    parent: Plan,
    place: Place,
    scope: Scope,
    primitive: boolean,
  ): void {
    const { run } = this;
    if (primitive) {
      const plan = run.planner.itemPlan(slot, type, extra);
      this.primitive(value, companion, plan, place, scope);
      return;
    }
    if (!isObject(value)) {
      run.report('conformance.json-type', place, { expected: `an object (${type})`, found: shown(value) });
      return;
    }
    const object = value as JsonObject;
    if (type === 'Resource' || run.planner.kindOf(type) === 'resource') {
      this.inner(object, slot, extra, place, scope);
      return;
    }
    if (type === 'Extension') {
      const modifier = slot.name === 'modifierExtension';
      const defs = extensionDefs(run, object, parent, place, modifier, extra.length > 0);
      this.object(object, run.planner.itemPlan(slot, type, [...extra, ...defs]), place, scope);
      return;
    }
    this.object(object, run.planner.itemPlan(slot, type, extra), place, scope);
  }

  /** A resource inside another: contained, or the content of an entry or parameter. */
  private inner(value: JsonObject, slot: Slot, extra: readonly Def[], place: Place, scope: Scope): void {
    const { run } = this;
    if (typeof value['resourceType'] !== 'string') {
      const params = { found: 'an object without one' };
      run.report('conformance.not-a-resource', place, params, { severity: 'error' });
      return;
    }
    const type = value['resourceType'];
    const defs = [...slot.defs, ...extra];
    const only = profilesFor(run, defs, type, place);
    const contained = slot.name === 'contained';
    const fullUrl = contained ? scope.fullUrl : fullUrlOf(place, scope);
    const inner: Scope = {
      resource: value,
      root: contained ? scope.root : value,
      place,
      ...(scope.bundle && { bundle: scope.bundle }),
      ...(fullUrl !== undefined && { fullUrl }),
    };
    const inline = defs.filter(d => d.children.length > 0);
    const [first] = only;
    const root =
      only.length === 1 && first !== undefined ? profileRoot(run, first, type, place, true) : undefined;
    this.resource(value, root ? [...inline, root] : inline, inner);
    if (only.length > 1) this.anyProfile(value, only, place, inner);
  }

  private anyProfile(value: JsonObject, profiles: readonly string[], place: Place, scope: Scope): void {
    let reason = '';
    for (const profile of profiles) {
      const verdict = this.trial({ resource: value, scope, how: 'bundled' }, profile);
      if (verdict.conforms) return;
      reason ||= verdict.reason;
    }
    this.run.report('conformance.profile-none', place, { profiles: profiles.join(', '), reason });
  }

  private primitive(
    value: Json | undefined,
    companion: JsonObject | undefined,
    plan: Plan,
    place: Place,
    scope: Scope,
  ): void {
    const { run } = this;
    if (companion) this.object(companion, plan, place, scope);
    else run.applied.add(plan);
    if (value === undefined) {
      if (companion && !hasContent(companion)) {
        run.report('conformance.empty', place, { what: 'The element' });
      }
      return;
    }
    if (plan.type === 'xhtml' && typeof value === 'string') {
      if (!run.trying) checkNarrative(run, value, place, scope.root);
      return;
    }
    if (!checkPrimitive(run, value, plan, place, this.source)) return;
    checkValues(run, value, plan, place);
    checkBindings(run, value, plan, place);
    this.invariants.check(run, value, plan, place, scope);
  }

  /** What is said of a complex value as a whole. */
  private whole(value: JsonObject, plan: Plan, place: Place, scope: Scope): void {
    const { run } = this;
    // The companion of a primitive comes here too; what concerns its value is checked with the value.
    if (plan.kind === 'primitive') return;
    for (const { what, def } of plan.missingProfiles) {
      if (run.once(`profile|${what}`))
        run.report('conformance.profile-not-loaded', place, { profile: what }, { def });
    }
    if (plan.kind === 'complex' && !hasContent(value)) {
      run.report('conformance.empty', place, { what: 'The element' });
      return;
    }
    checkValues(run, value, plan, place);
    checkBindings(run, value, plan, place);
    checkTyped(run, value, plan, place, scope);
    for (const { what, def } of plan.anyOf) this.anyType(value, what, def, plan, place, scope);
    this.invariants.check(run, value, plan, place, scope);
  }

  /** A data type with several profiles: one must be met. */
  private anyType(
    value: JsonObject,
    profiles: readonly string[],
    def: Def,
    plan: Plan,
    place: Place,
    scope: Scope,
  ): void {
    const { run } = this;
    let reason = '';
    for (const profile of profiles) {
      const root = run.planner.tree(profile)?.root;
      if (!root) {
        reason ||= `${profile} is not loaded`;
        continue;
      }
      const verdict = run.aside(() => this.object(value, run.planner.plan([root], plan.type), place, scope));
      if (verdict.conforms) return;
      reason ||= verdict.reason;
    }
    run.report('conformance.profile-none', place, { profiles: profiles.join(', '), reason }, { def });
  }
}
