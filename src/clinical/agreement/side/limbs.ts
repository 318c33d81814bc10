import type { Finding } from '../../../findings/finding.js';
import type { CaseRecord } from '../../../record/schema/record.js';
import { type Told, toldToReaders } from '../../texts.js';
import { everyText } from '../every-text.js';
import { differs } from './finding.js';
import { allSides, type Sided } from './sided.js';
import { type Side, share } from './words.js';

type Limb = 'leg' | 'arm';

const limbs: Readonly<Record<Limb, string>> = {
  leg: 'legs?|hips?|knees?|thighs?|feet|foot|calf|calves|toes?|ankles?|lower limbs?',
  arm: 'arms?|wrists?|elbows?|hands?|fingers?|forearms?|upper limbs?',
};
const ofSide: Readonly<Record<Limb, RegExp>> = {
  leg: new RegExp(`\\b(left|right|both|bilateral)[- ](?:(?:lower|upper) )?(?:${limbs.leg})\\b`, 'gi'),
  arm: new RegExp(`\\b(left|right|both|bilateral)[- ](?:(?:lower|upper) )?(?:${limbs.arm})\\b`, 'gi'),
};
/** Where a weakness or a cold limb comes from, by the limb. Common practice, no source. */
const near: Readonly<Record<Limb, ReadonlySet<string>>> = {
  leg: new Set(['leg', 'knee', 'hip', 'spine', 'buttock', 'lumbar']),
  arm: new Set(['arm', 'shoulder', 'axilla', 'neck']),
};
/** Parts of the body with the vessels that are punctured, and the region that is treated. */
const punctured: Readonly<Record<Limb, string>> = { leg: 'femoral', arm: 'arm' };

const still =
  /\b(?:straight|still|flat|extended|stretched|(?:not|never|don't|avoid|no) (?:\w+ )?bend(?:ing)?|unbent)\b/i;
const check =
  /\b(?:check\w*|look|looking|test|watch|feel|examine|record|chart|strength|power|feeling|sensation|movements?|colou?r|warmth)\b/i;
const scan = /\b(?:duplex|ultrasound|scan|angiogra\w+|x-?ray|film|venogra\w+)\b/i;
const wayIn = /\b(?:groins?|wrists?|puncture|access|site|band|aneurysm)\b/i;
/** A limb for another reason, or both of them. */
const aside =
  /\b(?:blood pressure|cuff|blood|samples?|cannula|drip|infusion|compar\w+|than|other|opposite|lie|lies|lying|sleep|turn\w*|roll\w*|stick|crutch\w*|cane|sling|cast|splint|amputat\w+|stump|stroke|palsy|fistula|pacemaker|old|earlier|also|too|as well|next|later|second|handed|dominant|dressing|wound)\b/i;

const clauses = (text: string) => text.slice(0, 5000).split(/[.;,]\s|;/);

function sidesOfLimb(clause: string, limb: Limb): ReadonlySet<Side> {
  const words = [...clause.matchAll(ofSide[limb])].map(([, word = '']) => word.toLowerCase());
  return new Set(
    words.flatMap((word): readonly Side[] =>
      word === 'left' || word === 'right' ? [word] : ['left', 'right'],
    ),
  );
}

/** A limb that is to be kept still, checked or looked at by a scan, and the trouble or the way in is on the other side. */
export function limbSides(
  record: CaseRecord,
  targets: readonly Sided[],
  accesses: readonly Sided[],
): Finding[] {
  return toldToReaders(record).flatMap(told =>
    (['leg', 'arm'] as const)
      .flatMap(limb => [
        ...keptStill(told, limb, accesses),
        ...checked(record, told, limb, targets, accesses),
        ...scanned(record, told, limb, targets),
      ])
      .slice(0, 1),
  );
}

const against = ({ path, text }: Told, sides: ReadonlySet<Side>, places: readonly Sided[]): Finding[] => {
  const there = allSides(places);
  return sides.size !== 1 || there.size !== 1 || share(sides, there)
    ? []
    : [differs(path, text, sides, places[0]?.path ?? '', there)];
};

const inRegion = (places: readonly Sided[], regions: ReadonlySet<string>) =>
  places.filter(({ parts }) => parts.some(({ region }) => regions.has(region)));

/** The limb of a puncture is kept still: that of the groin or of the wrist. */
function keptStill(told: Told, limb: Limb, accesses: readonly Sided[]): Finding[] {
  const own = inRegion(accesses, new Set([limb]));
  const isPuncture = own.some(({ parts }) => parts.some(({ name }) => name === punctured[limb]));
  if (!isPuncture || own.some(({ sides }) => sides.size === 0)) return [];
  return clauses(told.text)
    .filter(clause => still.test(clause) && !aside.test(clause))
    .flatMap(clause => against(told, sidesOfLimb(clause, limb), own))
    .slice(0, 1);
}

const after = /^(?:outcome|conclusion|aftercare|advice)\b/;

/** Something else speaks of that limb, and may be why it is looked at; that both are well afterwards is no reason. */
const isNamedElsewhere = (record: CaseRecord, path: string, limb: Limb, sides: ReadonlySet<Side>) =>
  everyText(record).some(one => {
    const named = one.path === path ? new Set<Side>() : sidesOfLimb(one.text, limb);
    return share(named, sides) && !(named.size > 1 && after.test(one.path));
  });

/** The limb of some clauses, where it is on the other side than all places and nothing else speaks of it. */
const alone = (
  record: CaseRecord,
  told: Told,
  limb: Limb,
  looks: readonly string[],
  places: readonly Sided[],
): Finding[] =>
  looks
    .map(clause => sidesOfLimb(clause, limb))
    .flatMap(sides => {
      const found = against(told, sides, places);
      return found.length > 0 && !isNamedElsewhere(record, told.path, limb, sides) ? found : [];
    })
    .slice(0, 1);

function checked(
  record: CaseRecord,
  told: Told,
  limb: Limb,
  targets: readonly Sided[],
  accesses: readonly Sided[],
): Finding[] {
  const all = [...targets, ...accesses];
  const places = inRegion(all, near[limb]);
  const inHead = all.some(({ parts }) => parts.some(({ region }) => region === 'head'));
  if (inHead || places.length === 0 || !targets.some(({ sides }) => sides.size > 0)) return [];
  if (allSides(all).size !== 1 || places.some(({ sides }) => sides.size === 0)) return [];
  const looks = clauses(told.text).filter(clause => check.test(clause) && !aside.test(clause));
  return alone(record, told, limb, looks, places);
}

/** A scan that is booked looks at the limb that was treated. */
function scanned(record: CaseRecord, told: Told, limb: Limb, targets: readonly Sided[]): Finding[] {
  const treated = inRegion(targets, new Set([limb]));
  if (treated.length === 0 || treated.some(({ sides }) => sides.size === 0)) return [];
  const looks = clauses(told.text).filter(
    clause => scan.test(clause) && !wayIn.test(clause) && !aside.test(clause),
  );
  return alone(record, told, limb, looks, treated);
}
