import type { Binding } from '../definitions/model.js';
import type { Def } from '../schema/definition.js';
import type { Plan } from '../schema/plan.js';
import { checkDigitProblem } from '../terminology/check-digits.js';
import type { Answer } from '../terminology/membership.js';
import { IN } from '../terminology/membership.js';
import { UCUM, unitProblem } from '../terminology/units.js';
import { isObject } from './equal.js';
import type { Place } from './place.js';
import { patternOf } from './place.js';
import type { Code, Run } from './run.js';

interface Coded {
  /** Absent for an element of type code, whose system the value set gives. */
  readonly system?: string | undefined;
  readonly code?: string | undefined;
}

/** Checks the bindings at this place against a code, Coding, CodeableConcept, Quantity, string or uri. */
export function checkBindings(run: Run, value: unknown, plan: Plan, place: Place): void {
  for (const { what, def } of plan.bindings) {
    const coded = codedOf(value, plan);
    if (!coded) continue;
    if (what.valueSet !== undefined) {
      checkOne(run, coded, what.strength, what.valueSet, def, place, plan.type);
    }
    if (what.maxValueSet !== undefined) checkOne(run, coded, 'max', what.maxValueSet, def, place, plan.type);
  }
}

type Strength = Binding['strength'] | 'max';

const codes: Readonly<Record<Exclude<Strength, 'example'>, Code>> = {
  required: 'conformance.binding-required',
  extensible: 'conformance.binding-extensible',
  preferred: 'conformance.binding-preferred',
  max: 'conformance.binding-max',
};

const ruleOf: Readonly<Record<Exclude<Strength, 'example'>, string>> = {
  required: 'binding-required',
  extensible: 'binding-extensible',
  preferred: 'binding-preferred',
  max: 'binding-max',
};

function checkOne(
  run: Run,
  coded: readonly Coded[],
  strength: Strength,
  valueSet: string,
  def: Def,
  place: Place,
  type: string,
): void {
  if (strength === 'example') return;
  run.rules.add(ruleOf[strength]);
  const withCode = coded.every(c => c.code !== undefined) ? coded : coded.filter(c => c.code !== undefined);
  if (withCode.length === 0) {
    // Text alone may stand for an extensible binding, never for a required one.
    if (strength === 'required' && type !== 'Quantity') {
      report(run, codes[strength], 'a value without a code', valueSet, def, place);
    }
    return;
  }
  const answer = best(run, valueSet, withCode);
  if (answer.is === 'in') return;
  const found = withCode.map(shownCode).join(', ');
  if (answer.is === 'unknown') {
    for (const { system, code = '' } of withCode) {
      const question = { valueSet, code, ...(system !== undefined && { system }) };
      run.open.set(JSON.stringify(question), question);
    }
    if (run.once(`${valueSet}|${patternOf(place)}`)) {
      const params = { found, valueSet, reason: answer.reason };
      run.report('conformance.binding-not-checked', place, params, { def });
    }
  } else if (answer.is === 'out') {
    report(run, codes[strength], found, valueSet, def, place);
  }
}

function report(run: Run, code: Code, found: string, valueSet: string, def: Def, place: Place): void {
  const some = run.terminology.members(valueSet)?.some(run.terminology) ?? [];
  const hint = some.length > 0 && some.length <= 12 ? `: ${some.join(', ')}` : '';
  run.report(
    code as 'conformance.binding-required',
    place,
    { found, valueSet, hint },
    { def, expected: valueSet },
  );
}

/** Of several codings one is enough. */
function best(run: Run, valueSet: string, coded: readonly Coded[]): Answer {
  let answer: Answer | undefined;
  for (const { system, code = '' } of coded) {
    const one = run.terminology.test(valueSet, system, code);
    if (one.is === 'in') return one;
    if (answer?.is !== 'unknown') answer = one.is === 'unknown' ? one : (answer ?? one);
  }
  return answer ?? IN;
}

function codedOf(value: unknown, plan: Plan): readonly Coded[] | undefined {
  if (plan.kind === 'primitive') return typeof value === 'string' ? [{ code: value }] : undefined;
  if (!isObject(value)) return undefined;
  if (plan.type === 'CodeableConcept') {
    const coding = value['coding'];
    return Array.isArray(coding) ? coding.filter(isObject).map(codingOf) : [];
  }
  if (plan.type === 'Coding') return [codingOf(value)];
  if (plan.ancestry.includes('Quantity')) return value['code'] === undefined ? undefined : [codingOf(value)];
  return undefined;
}

/** A Coding without a system is in no value set: an empty system matches none. */
function codingOf(value: Readonly<Record<string, unknown>>): Coded {
  const { system, code } = value;
  return {
    system: typeof system === 'string' ? system : '',
    code: typeof code === 'string' ? code : undefined,
  };
}

function shownCode({ system, code }: Coded): string {
  return system === undefined ? `"${code}"` : `${system}#${code}`;
}

/** Checks a Coding by itself: its system, whether the system has the code, and its display. */
export function checkCoding(run: Run, value: Readonly<Record<string, unknown>>, place: Place): void {
  const { system, code, display } = value;
  if (typeof system !== 'string') return;
  run.rules.add('code-unknown');
  if (!/^[A-Za-z][A-Za-z0-9+.-]*:/.test(system)) {
    run.report(
      'conformance.code-system-relative',
      place,
      { system },
      { member: { owner: value, key: 'system' } },
    );
    return;
  }
  if (/\/ValueSet\//.test(system) && run.terminology.members(system)) {
    run.report(
      'conformance.code-system-value-set',
      place,
      { system },
      { member: { owner: value, key: 'system' } },
    );
    return;
  }
  if (typeof code !== 'string') return;
  run.rules.add('code-check-digit');
  const problem = checkDigitProblem(system, code);
  if (problem !== undefined)
    run.report(
      'conformance.code-check-digit',
      place,
      { system, code, problem },
      { member: { owner: value, key: 'code' } },
    );
  const codes = run.terminology.codes(system);
  if (run.terminology.exists(system, code) === false) {
    reportUnknownCode(run, system, code, place, { owner: value, key: 'code' });
    return;
  }
  const concept = codes?.find(code);
  if (typeof display !== 'string' || concept?.display === undefined) return;
  run.rules.add('code-display');
  const accepted = [concept.display, ...(concept.also ?? [])];
  if (accepted.some(a => sameWords(a, display))) return;
  const params = { found: display, code, expected: accepted.map(a => `"${a}"`).join(' or ') };
  run.report('conformance.code-display', place, params, { member: { owner: value, key: 'display' } });
}

function sameWords(a: string, b: string): boolean {
  const plain = (text: string) => text.trim().replace(/\s+/g, ' ').toLowerCase();
  return plain(a) === plain(b);
}

/** Checks the unit of a Quantity: a UCUM unit, or a code that its system has. */
export function checkUnit(run: Run, value: Readonly<Record<string, unknown>>, place: Place): void {
  const { system, code } = value;
  if (typeof system !== 'string' || typeof code !== 'string') return;
  run.rules.add('unit-invalid');
  const member = { owner: value, key: 'code' };
  if (system !== UCUM) {
    if (run.terminology.exists(system, code) === false) reportUnknownCode(run, system, code, place, member);
    return;
  }
  const problem = unitProblem(code);
  if (problem !== undefined) run.report('conformance.unit-invalid', place, { code, problem }, { member });
}

function reportUnknownCode(
  run: Run,
  system: string,
  code: string,
  place: Place,
  member: { readonly owner: object; readonly key: string },
): void {
  const nearly = run.terminology.codes(system)?.nearly(code);
  const hint = nearly === undefined ? '' : `: did you mean "${nearly}"?`;
  run.report('conformance.code-unknown', place, { system, code, hint }, { member });
}
