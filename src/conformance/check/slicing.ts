import type { Def } from '../schema/definition.js';
import type { Slot } from '../schema/plan.js';
import { checkSliceCount } from './cardinality.js';
import type { Item, Matchers } from './discriminator.js';
import type { Place, Scope } from './place.js';
import type { Run } from './run.js';

const EMPTY: readonly Def[] = [];

/**
 * Puts the items of one element into the slices of its definitions, checks the counts and the slicing
 * rules, and gives for each item the slices it belongs to.
 */
export function sliceItems(
  run: Run,
  matchers: Matchers,
  slot: Slot,
  items: readonly Item[],
  scope: Scope,
  parent: Place,
): readonly (readonly Def[])[] {
  const found: Def[][] = items.map(() => []);
  for (const sliced of slot.sliced) {
    assign(
      run,
      matchers,
      sliced,
      items.map((item, index) => ({ item, index })),
      found,
      scope,
      parent,
    );
  }
  return found.map(defs => (defs.length > 0 ? defs : EMPTY));
}

interface Placed {
  readonly item: Item;
  readonly index: number;
}

function assign(
  run: Run,
  matchers: Matchers,
  sliced: Def,
  items: readonly Placed[],
  found: Def[][],
  scope: Scope,
  parent: Place,
): void {
  run.rules.add('slice-closed');
  const rules = matchers.slicingOf(sliced);
  const counts = new Map<Def, Placed[]>(sliced.slices.map(s => [s, []]));
  const order: { slice: Def | undefined; placed: Placed }[] = [];
  let undecided = false;
  for (const placed of items) {
    let own: Def | undefined;
    for (const slice of sliced.slices) {
      if (slice.element.sliceName === '@default') continue;
      const verdict = matchers.matches(run, slice, sliced, placed.item, scope);
      if (verdict === undefined) undecided = true;
      else if (verdict) {
        own = slice;
        break;
      }
    }
    own ??= sliced.slices.find(s => s.element.sliceName === '@default');
    order.push({ slice: own, placed });
    if (own) {
      found[placed.index]?.push(own);
      counts.get(own)?.push(placed);
    }
  }
  if (undecided) {
    noticeUndecided(run, sliced, parent);
    return;
  }
  for (const [slice, members] of counts) {
    const element = `${slot(sliced)}:${slice.element.sliceName}`;
    // An absent element that may be absent asks nothing of its slices' maximum, but does of their minimum.
    checkSliceCount(run, slice, members.length, parent, element);
    if (slice.slices.length > 0) assign(run, matchers, slice, members, found, scope, parent);
  }
  checkRules(run, sliced, rules.rules, rules.ordered === true, order);
}

function slot(sliced: Def): string {
  return sliced.element.sliceName === undefined ? sliced.name : `${sliced.name}:${sliced.element.sliceName}`;
}

function noticeUndecided(run: Run, sliced: Def, parent: Place): void {
  if (!run.once(`slicing|${sliced.id}`)) return;
  const params = { element: sliced.element.path, reason: 'no discriminator that tells its slices apart' };
  run.report('conformance.slice-not-checked', parent, params, { def: sliced });
}

function checkRules(
  run: Run,
  sliced: Def,
  rules: 'open' | 'closed' | 'openAtEnd',
  ordered: boolean,
  order: readonly { slice: Def | undefined; placed: Placed }[],
): void {
  let last = -1;
  let lastSlice: Def | undefined;
  let outside: Placed | undefined;
  for (const { slice, placed } of order) {
    const at = placed.item.place;
    if (!slice) {
      outside ??= placed;
      if (rules === 'closed') {
        const slices = sliced.slices.map(s => s.element.sliceName).join(', ');
        run.report('conformance.slice-closed', at, { element: sliced.element.path, slices }, { def: sliced });
      }
      continue;
    }
    const name = slice.element.sliceName ?? '';
    const index = sliced.slices.indexOf(slice);
    if (ordered && index < last && lastSlice) {
      const after = lastSlice.element.sliceName ?? '';
      run.report('conformance.slice-order', at, { slice: name, after }, { def: slice });
    }
    if (index > last) {
      last = index;
      lastSlice = slice;
    }
    if (rules === 'openAtEnd' && outside) {
      run.report(
        'conformance.slice-end',
        outside.item.place,
        { element: sliced.element.path, slice: name },
        { def: sliced },
      );
      outside = undefined;
    }
  }
}
