import type { JsonObject } from '../../json/parse.js';
import type { Member, Plan, Slot } from '../schema/plan.js';
import type { Place } from './place.js';
import type { Run } from './run.js';
import { nearest } from './spelling.js';

/** Reports a JSON member that no definition has. */
export function reportUnknown(run: Run, value: JsonObject, key: string, plan: Plan, place: Place): void {
  const similar = nearest(key, plan.members.keys());
  const hint = similar === undefined ? 'extra content belongs into extensions' : `did you mean "${similar}"?`;
  const options = { member: { owner: value, key } };
  if (key === 'resourceType') {
    run.report('conformance.unknown-element', place, { parent: plan.type, name: key, hint }, options);
    return;
  }
  const choice = plan.slots.find(
    s => s.choice && key.startsWith(s.name) && /^[A-Z]/.test(key.slice(s.name.length)),
  );
  const type = choice && key.slice(choice.name.length);
  if (choice && type !== undefined && run.planner.typeTree(typeNameOf(run, type))) {
    const allowed = (choice.defs[0]?.element.type ?? []).map(t => t.code).join(', ');
    run.report(
      'conformance.choice-type',
      place,
      { element: `${choice.name}[x]`, found: type, allowed },
      options,
    );
    return;
  }
  run.report('conformance.unknown-element', place, { parent: plan.base, name: key, hint }, options);
}

/** Notes under which name a slot was met; true, and reported, when a choice stands there in a second type. */
export function isSecond(
  run: Run,
  value: JsonObject,
  key: string,
  slot: Slot,
  seen: Map<Slot, string>,
  place: Place,
): boolean {
  const name = key.startsWith('_') ? key.slice(1) : key;
  const before = seen.get(slot);
  if (before === undefined) {
    seen.set(slot, name);
    return false;
  }
  const params = { element: `${slot.name}[x]`, found: `${before}, ${name}` };
  run.report('conformance.choice-twice', place, params, { member: { owner: value, key } });
  return true;
}

/** Checks the type of a choice element against what all definitions allow. */
export function checkChoiceType(
  run: Run,
  value: JsonObject,
  name: string,
  { slot, type }: Member,
  place: Place,
): void {
  for (const def of slot.defs) {
    const types = def.element.type;
    if (!types || types.some(t => t.code === type)) continue;
    const allowed = types.map(t => t.code).join(', ');
    const params = { element: `${slot.name}[x]`, found: type, allowed };
    run.report('conformance.choice-type', place, params, {
      def,
      expected: allowed,
      member: { owner: value, key: name },
    });
    return;
  }
}

function typeNameOf(run: Run, suffix: string): string {
  if (run.planner.typeTree(suffix)) return suffix;
  return suffix.charAt(0).toLowerCase() + suffix.slice(1);
}
