import type { JsonObject } from '../../json/parse.js';
import type { Def } from '../schema/definition.js';
import type { Plan } from '../schema/plan.js';
import { isObject } from './equal.js';
import type { Place } from './place.js';
import type { Run } from './run.js';
import { nearest } from './spelling.js';

/** Profiles that the resource claims in meta.profile. */
export function claimed(value: JsonObject): string[] {
  const meta = value['meta'];
  const profile = isObject(meta) ? meta['profile'] : undefined;
  return Array.isArray(profile) ? profile.filter(p => typeof p === 'string') : [];
}

/** Root of a profile that a resource of `type` claims; what is not loaded is an error, never a pass. */
export function profileRoot(
  run: Run,
  profile: string,
  type: string,
  place: Place,
  lenient = false,
): Def | undefined {
  run.rules.add('profile-not-loaded');
  const tree = run.planner.tree(profile, lenient);
  if (!tree) {
    run.report('conformance.profile-not-loaded', place, { profile });
    return undefined;
  }
  const expected = tree.structure.type;
  if (expected === type || run.planner.ancestry(type).includes(expected)) return tree.root;
  run.report('conformance.profile-type', place, { profile, expected, found: type });
  return undefined;
}

/** Reports a resourceType that R4 does not have. */
export function reportUnknownType(run: Run, type: string, place: Place): void {
  const base = 'http://hl7.org/fhir/StructureDefinition/';
  const names = run.planner.definitions
    .structureUrls()
    .filter(u => u.startsWith(base) && /^[A-Z]/.test(u.slice(base.length)))
    .map(u => u.slice(base.length));
  const similar = nearest(type, names);
  const hint = similar === undefined ? 'see the list of resource types' : `did you mean ${similar}?`;
  run.report('conformance.unknown-type', place, { type, hint });
}

/** Canonicals of the structures that `plans` came from. */
export function appliedProfiles(plans: Iterable<Plan>): string[] {
  const found = new Set<string>();
  for (const plan of plans) for (const source of plan.sources) found.add(source);
  return [...found].sort();
}

/** Profiles that the place of a resource asks of it; a type that the place does not allow is reported. */
export function profilesFor(run: Run, defs: readonly Def[], type: string, place: Place): readonly string[] {
  const entries = defs.flatMap(d => d.element.type ?? []);
  const fitting = entries.filter(
    t => t.code === type || t.code === 'Resource' || t.code === 'DomainResource',
  );
  if (fitting.length === 0) {
    const allowed = entries.map(t => t.code).join(', ');
    run.report('conformance.choice-type', place, { element: place.name, found: type, allowed });
  }
  return fitting.flatMap(t => t.profile ?? []);
}
