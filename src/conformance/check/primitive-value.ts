import type { Json, Source } from '../../json/parse.js';
import type { Plan } from '../schema/plan.js';
import { isAbsolute } from './bundle-index.js';
import type { Place } from './place.js';
import { jsonKindOf, primitiveProblem } from './primitive.js';
import type { Run } from './run.js';
import { shown } from './values.js';

/** Checks JSON kind and lexical form of a primitive; false when further checks would make no sense. */
export function checkPrimitive(
  run: Run,
  value: Json,
  plan: Plan,
  place: Place,
  source: Source | undefined,
): boolean {
  const { type } = plan;
  const kind = jsonKindOf(type);
  if (typeof value !== kind) {
    run.report('conformance.json-type', place, { expected: `a ${kind} (${type})`, found: shown(value) });
    return false;
  }
  if (value === '') {
    run.report('conformance.empty', place, { what: 'The string' });
    return false;
  }
  const raw = source?.numbers.get(place.owner)?.get(place.key) ?? String(value);
  const problem = primitiveProblem(type, raw);
  if (problem === undefined) {
    if (type === 'canonical' && !isAbsolute(raw) && !raw.startsWith('#')) {
      run.report('conformance.canonical-relative', place, { value: raw });
    }
    return true;
  }
  const short = raw.length > 80 ? `${raw.slice(0, 77)}...` : raw;
  run.report('conformance.primitive-format', place, { value: short, type, problem }, { expected: type });
  return false;
}
