import { createRequire } from 'node:module';
import type { Constraint } from '../definitions/model.js';
import type { Json } from '../json/parse.js';
import type { Plan, Planned } from '../schema/plan.js';
import { isObject } from './equal.js';
import { nativeInvariants } from './native-invariants.js';
import type { Place } from './place.js';
import { resolve } from './resolve.js';
import type { Run, Scope } from './run.js';
import type { Simple } from './simple-path.js';
import { compileSimple } from './simple-path.js';

const require = createRequire(import.meta.url);

/** A compiled expression: gives the items it evaluates to. */
type Compiled = (value: unknown, variables: Readonly<Record<string, unknown>>) => unknown;

/** The little of the FHIRPath library that is used here. */
interface Library {
  compile(path: { base: string; expression: string }, model: unknown, options: unknown): Compiled;
}

/** Evaluates invariants; expressions are compiled once, the library is read at the first one. */
export class Invariants {
  private readonly compiled = new Map<string, Compiled | string>();
  /** Expressions that need no library; null for those that do. */
  private readonly simple = new Map<string, Simple | null>();
  private library: { fhirpath: Library; model: unknown } | undefined;
  private scope: Scope | undefined;

  /** Checks all invariants of `plan` on `value`. */
  check(run: Run, value: Json, plan: Plan, place: Place, scope: Scope): void {
    for (const planned of plan.constraints) {
      // A trial asks for the profile: the invariants of the type are checked where the resource stands.
      if (run.trying && planned.def.structure.derivation !== 'constraint') continue;
      this.checkOne(run, planned, value, plan, place, scope);
    }
  }

  private checkOne(
    run: Run,
    planned: Planned<Constraint>,
    value: Json,
    plan: Plan,
    place: Place,
    scope: Scope,
  ): void {
    const { what, def } = planned;
    const { expression, key, human } = what;
    if (expression === undefined) return;
    const holds = this.verdict(expression, value, plan, scope, run);
    if (holds === true) return;
    if (typeof holds === 'string') {
      if (run.once(`invariant|${key}`)) {
        run.report('conformance.invariant-not-checked', place, { key, reason: holds, human }, { def, key });
      }
      return;
    }
    const severity = what.severity;
    run.report(
      'conformance.invariant',
      place,
      { key, human, expression },
      { def, key, severity, expected: expression },
    );
  }

  private verdict(expression: string, value: Json, plan: Plan, scope: Scope, run: Run): boolean | string {
    const native = nativeInvariants.get(expression);
    const judged = native?.(value, scope);
    if (judged !== undefined) return judged;
    const base = plan.kind === 'resource' ? plan.type : plan.base;
    const id = `${base}|${expression}`;
    let simple = this.simple.get(id);
    if (simple === undefined) {
      simple = compileSimple(expression, path => run.planner.isChoice(plan, path)) ?? null;
      this.simple.set(id, simple);
    }
    return simple ? simple(value) === true : this.evaluate(expression, base, value, scope);
  }

  private evaluate(expression: string, base: string, value: Json, scope: Scope): boolean | string {
    const id = `${base}|${expression}`;
    let compiled = this.compiled.get(id);
    if (compiled === undefined) {
      compiled = this.compile(base, expression);
      this.compiled.set(id, compiled);
    }
    if (typeof compiled === 'string') return compiled;
    this.scope = scope;
    try {
      const found = compiled(value, { resource: scope.resource, rootResource: scope.root });
      // Only true passes: an expression that gives nothing does not say that the rule holds.
      return Array.isArray(found) && found.length === 1 && found[0] === true;
    } catch (error) {
      return error instanceof Error ? error.message : String(error);
    }
  }

  private compile(base: string, expression: string): Compiled | string {
    this.library ??= {
      fhirpath: require('fhirpath') as Library,
      model: require('fhirpath/fhir-context/r4') as unknown,
    };
    const { fhirpath, model } = this.library;
    try {
      return fhirpath.compile({ base, expression }, model, {
        traceFn: () => undefined,
        userInvocationTable: {
          resolve: { fn: (inputs: readonly unknown[]) => this.resolveAll(inputs), arity: { 0: [] } },
        },
      });
    } catch (error) {
      return error instanceof Error ? error.message : String(error);
    }
  }

  private resolveAll(inputs: readonly unknown[]): unknown[] {
    const { scope } = this;
    if (!scope) return [];
    return inputs.flatMap(input => {
      const reference = isObject(input) ? input['reference'] : input;
      const target = typeof reference === 'string' ? resolve(reference, scope) : undefined;
      return target ? [target.resource] : [];
    });
  }
}
