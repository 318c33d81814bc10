import type { JsonObject } from '../../json/parse.js';
import { isObject } from './equal.js';
import type { Place } from './place.js';
import type { Run } from './run.js';

/** Checks that each contained resource has an id of its own. Source: R4 references page, contained resources. */
export function checkContained(run: Run, resource: JsonObject, parent: Place): void {
  const { contained } = resource;
  if (!Array.isArray(contained)) return;
  run.rules.add('contained-id');
  const seen = new Set<string>();
  for (const [index, item] of contained.entries()) {
    if (!isObject(item)) continue;
    const place: Place = { parent, name: 'contained', index, owner: contained, key: String(index) };
    const { id } = item;
    if (typeof id !== 'string') {
      run.report('conformance.contained-id', place, { problem: 'The contained resource has no id' });
    } else if (seen.has(id)) {
      run.report('conformance.contained-id', place, {
        problem: `The id "${id}" is used by two contained resources`,
      });
    } else seen.add(id);
  }
}
