import type { Def } from '../schema/definition.js';
import type { Fitting, Plan, Targets } from '../schema/plan.js';
import { isAbsolute, restful } from './bundle-index.js';
import type { Place, Scope } from './place.js';
import type { Target } from './resolve.js';
import { resolve } from './resolve.js';
import type { Run } from './run.js';

const BASE = 'http://hl7.org/fhir/StructureDefinition/';

/** Checks a Reference: its form, whether it leads somewhere, and to what. */
export function checkReference(
  run: Run,
  value: Readonly<Record<string, unknown>>,
  plan: Plan,
  place: Place,
  scope: Scope,
): void {
  const { reference, type: said } = value;
  run.rules.add('reference-type');
  const member = { owner: value, key: 'reference' };
  const self = reference === '#' && scope.resource === scope.root;
  const target = typeof reference === 'string' && !self ? resolve(reference, scope) : undefined;
  if (typeof reference === 'string') {
    const problem = formProblem(reference);
    if (problem !== undefined) {
      run.report('conformance.reference-format', place, { reference, problem }, { member });
      return;
    }
    if (!target) checkDangling(run, reference, place, scope, member);
  }
  const found = target ? String(target.resource['resourceType']) : typeOf(reference);
  if (typeof said === 'string' && found !== undefined && said !== found && !said.includes('/')) {
    run.report('conformance.reference-type-mismatch', place, { said, found }, { member });
  }
  if (typeof said === 'string' && !said.includes('/') && run.planner.kindOf(said) !== 'resource') {
    const params = { type: said, hint: 'Reference.type names a resource type' };
    run.report('conformance.unknown-type', place, params, { member: { owner: value, key: 'type' } });
  }
  const type = found ?? (typeof said === 'string' ? said : undefined);
  for (const { what, def } of plan.targets) {
    if (type !== undefined) checkTarget(run, what, def, type, target, place);
    if (what.aggregation && typeof reference === 'string')
      checkAggregation(run, what, def, reference, target, place);
  }
}

function formProblem(reference: string): string | undefined {
  if (reference.startsWith('#')) return undefined;
  if (isConditional(reference)) return criteriaProblem(reference.slice(reference.indexOf('?') + 1));
  if (isAbsolute(reference)) return undefined;
  if (restful(reference.replace(/#.*$/, ''))) return undefined;
  return 'a relative reference is Type/id';
}

/** A search without criteria finds everything of its type. Source: R4 http page, conditional references. */
function criteriaProblem(search: string): string | undefined {
  const [first = ''] = search.split('&');
  return /^[^=]+=./.test(first) ? undefined : 'a conditional reference is Type?parameter=value';
}

/** `Type?search`: the server finds the resource when it processes a transaction. */
function isConditional(reference: string): boolean {
  return /^[A-Z][A-Za-z]+\?/.test(reference);
}

function checkDangling(
  run: Run,
  reference: string,
  place: Place,
  scope: Scope,
  member: { owner: object; key: string },
): void {
  if (reference.startsWith('#')) {
    run.report('conformance.reference-contained', place, { id: reference.slice(1) }, { member });
  } else if (isConditional(reference)) {
    if (scope.bundle?.type !== 'transaction') {
      run.report('conformance.conditional-reference', place, { reference }, { member });
    }
  } else if (scope.bundle && /^urn:(uuid|oid):/.test(reference)) {
    run.report('conformance.reference-urn', place, { reference }, { member });
  }
}

/** The type a reference names: `Patient/1`, `http://x/Patient/1`, `Patient?identifier=…`. */
function typeOf(reference: unknown): string | undefined {
  if (typeof reference !== 'string') return undefined;
  if (isConditional(reference)) return reference.slice(0, reference.indexOf('?'));
  return restful(reference)?.type;
}

function checkTarget(
  run: Run,
  targets: Targets,
  def: Def,
  type: string,
  target: Target | undefined,
  place: Place,
): void {
  const { profiles } = targets;
  if (profiles.length === 0) return;
  const { profiles: ofType, plain } = fitting(run, targets, type);
  if (ofType.length === 0) {
    const allowed = profiles.map(p => typeName(run, p)).join(', ');
    run.report('conformance.reference-type', place, { found: type, allowed }, { def, expected: allowed });
    return;
  }
  // A target of a plain type is checked against that type in its own entry.
  if (!target || plain) return;
  run.rules.add('reference-profile');
  let reason = '';
  for (const profile of ofType) {
    const verdict = run.trial(target, profile);
    if (verdict.conforms) return;
    reason ||= verdict.reason;
  }
  run.report('conformance.reference-profile', place, { profiles: ofType.join(', '), reason }, { def });
}

function fitting(run: Run, { profiles, fitting: known }: Targets, type: string): Fitting {
  let found = known.get(type);
  if (!found) {
    const ofType = profiles.filter(p => allows(run, p, type));
    found = { profiles: ofType, plain: ofType.some(isPlain) };
    known.set(type, found);
  }
  return found;
}

function isPlain(profile: string): boolean {
  return profile.startsWith(BASE) && /^[A-Z][A-Za-z]*(\|.*)?$/.test(profile.slice(BASE.length));
}

function allows(run: Run, profile: string, type: string): boolean {
  const name = typeName(run, profile);
  return name === type || name === 'Resource' || run.planner.ancestry(type).includes(name);
}

function typeName(run: Run, profile: string): string {
  return run.planner.definitions.structure(profile, true)?.type ?? profile;
}

function checkAggregation(
  run: Run,
  what: Targets,
  def: Def,
  reference: string,
  target: Target | undefined,
  place: Place,
): void {
  const found = reference.startsWith('#') ? 'contained' : target ? 'bundled' : 'referenced';
  const allowed = what.aggregation ?? [];
  if (allowed.includes(found) || (found === 'bundled' && allowed.includes('referenced'))) return;
  const params = { found, allowed: allowed.join(', ') };
  run.report('conformance.reference-aggregation', place, params, { def });
}
