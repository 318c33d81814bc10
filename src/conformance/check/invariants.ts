import { createRequire } from 'node:module';
import type { Json } from '../../json/parse.js';
import type { Constraint } from '../definitions/model.js';
import type { Plan, Planned } from '../schema/plan.js';
import { isObject } from './equal.js';
import { nativeInvariants } from './native-invariants.js';
import type { Place, Scope } from './place.js';
import { resolve } from './resolve.js';
import type { Run } from './run.js';
import { compileSimple } from './simple-path.js';

const require = createRequire(import.meta.url);

/** A compiled expression: gives the items it evaluates to. */
type Compiled = (value: unknown, variables: Readonly<Record<string, unknown>>) => unknown;

/** The verdict on a value, or why there is none. */
type Judge = (value: Json, scope: Scope) => boolean | string;

/** The little of the FHIRPath library that is used here. */
interface Library {
  compile(path: { base: string; expression: string }, model: unknown, options: unknown): Compiled;
}

/** Evaluates invariants; expressions are compiled once, the library is read at the first one. */
export class Invariants {
  private readonly compiled = new Map<string, Compiled | string>();
  private readonly judges = new Map<Planned<Constraint>, Judge>();
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
    let judge = this.judges.get(planned);
    if (!judge) {
      judge = this.judgeOf(expression, plan, run);
      this.judges.set(planned, judge);
    }
    const holds = judge(value, scope);
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

  /** How an expression is judged on values of `plan`: by hand, compiled, or by the library. */
  private judgeOf(expression: string, plan: Plan, run: Run): Judge {
    const native = nativeInvariants.get(expression);
    const rest = this.withoutNative(expression, plan, run);
    return native ? (value, scope) => native(value, scope) ?? rest(value, scope) : rest;
  }

  private withoutNative(expression: string, plan: Plan, run: Run): Judge {
    const base = plan.kind === 'resource' ? plan.type : plan.base;
    const simple = compileSimple(expression, path => run.planner.isChoice(plan, path));
    return simple
      ? value => simple(value) === true
      : (value, scope) => this.evaluate(expression, base, value, scope);
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
