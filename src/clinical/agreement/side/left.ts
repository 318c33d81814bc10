import { eventsMoving } from '../../../devices/by-device.js';
import type { Finding } from '../../../findings/finding.js';
import type { CaseRecord } from '../../../record/schema/record.js';
import { differs } from './finding.js';
import { allSides, near, type Sided } from './sided.js';
import { type Side, type SideWord, share, sidesOf, sideWordsIn } from './words.js';

/** Where a device is left, against where the events put it. */
export function leftSides(
  record: CaseRecord,
  targets: readonly Sided[],
  accesses: readonly Sided[],
): Finding[] {
  if (record.left === undefined || record.left === 'none') return [];
  return record.left.flatMap(({ device, site }, i) => {
    if (!site) return [];
    for (const word of sideWordsIn(site.text)) {
      const { sides, path } = whereLeft(record, device, word, targets, accesses);
      if (sides.size > 0 && !share(word.sides, sides))
        return [differs(`left[${i}].site`, site.text, word.sides, path, sides)];
    }
    return [];
  });
}

function whereLeft(
  record: CaseRecord,
  device: string,
  word: SideWord,
  targets: readonly Sided[],
  accesses: readonly Sided[],
): { sides: ReadonlySet<Side>; path: string } {
  const events = eventsMoving(record, device).map(({ event }) => event);
  const keys = new Set(events.flatMap(event => [event.across, event.target]));
  const own = near(
    targets.filter(({ key }) => keys.has(key)),
    word.parts,
  );
  const entered = events.flatMap(({ into }) =>
    sideWordsIn(into?.text ?? '').filter(({ parts }) => parts.some(part => word.parts.includes(part))),
  );
  const linked = new Set([...allSides(own), ...sidesOf(entered)]);
  if (linked.size > 0) return { sides: linked, path: own[0]?.path ?? 'events' };
  const found = [near(targets, word.parts), near(accesses, word.parts)].find(places => places.length > 0);
  if (found) return { sides: allSides(found), path: found[0]?.path ?? '' };
  // A catheter under the skin of the chest comes out of the vein of the same side.
  const wall = word.parts.some(({ name }) => name === 'chest wall');
  const veins = wall
    ? accesses.filter(
        ({ parts, sides }) =>
          sides.size > 0 && parts.some(({ region }) => region === 'neck' || region === 'arm'),
      )
    : [];
  return { sides: allSides(veins), path: veins[0]?.path ?? '' };
}
