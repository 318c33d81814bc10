import { type Finding, finding } from '../../../findings/finding.js';
import { message } from '../../../findings/message.js';
import type { CaseRecord } from '../../../record/schema/record.js';
import { type BodyPart, bodyPartsIn } from '../../../trade/body.js';
import { brainSides } from './brain.js';
import { eventSides } from './events.js';
import { differs, spoken } from './finding.js';
import { leftSides } from './left.js';
import { limbSides } from './limbs.js';
import { conditionSides, nounSides } from './nouns.js';
import { accessesOf, allSides, meant, near, type Sided, targetsOf } from './sided.js';
import { toldSides } from './told.js';
import { largeSheaths, punctures, straightIn } from './ways-in.js';
import { fieldSides, placeSides, type SideWord, share, sidesOf, sideWordsIn, within } from './words.js';

/** Two places that give different sides, and a side that nothing gives. A way in may well lie on the other side. */
export function checkSides(record: CaseRecord): Finding[] {
  const targets = targetsOf(record);
  const accesses = accessesOf(record);
  return onePerPath([
    ...ownWords(record, targets, accesses),
    ...titleSides(record, targets, accesses),
    ...plannedSides(record, targets, accesses),
    ...straightIn(record, targets, accesses),
    ...punctures(record, accesses),
    ...largeSheaths(record, targets),
    ...eventSides(record, targets, accesses),
    ...aboutTargets(record, targets),
    ...leftSides(record, targets, accesses),
    ...careSides(record, targets, accesses),
    ...toldSides(record, targets, accesses),
    ...limbSides(record, targets, accesses),
    ...brainSides(record, targets),
    ...nounSides(record, [...targets, ...accesses]),
    ...conditionSides(record, [...targets, ...accesses]),
    ...missingSides(record, targets, accesses),
  ]);
}

function onePerPath(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings.filter(({ path }) => !seen.has(path) && seen.add(path));
}

/** The side of an access or a target against its own words. */
function ownWords(record: CaseRecord, targets: readonly Sided[], accesses: readonly Sided[]): Finding[] {
  const check = (place: Sided, field: string | undefined) => {
    const said = fieldSides(field);
    const known = sidesOf(sideWordsIn(place.text));
    const bare = placeSides(place.text);
    // What lies beside no known part of the body has to be clear: one side in the words, one in the field.
    const own = known.size > 0 ? known : bare.size === 1 && said.size === 1 ? bare : known;
    const paired = place.parts.some(part => part.paired);
    if (own.size === 0 || field === undefined || (field === 'midline' && !paired)) return [];
    if (field === 'midline') return [];
    const fits = said.size > 1 ? own.size > 1 || !paired : share(said, own);
    return fits ? [] : [differs(`${place.path}.side`, place.path, said, place.text, own)];
  };
  return [
    ...targets.flatMap(place => check(place, record.targets?.[place.key]?.side)),
    ...accesses.flatMap((place, i) => check(place, record.access?.[i]?.side)),
  ];
}

/** What was planned on one side and done on the other. */
function plannedSides(record: CaseRecord, targets: readonly Sided[], accesses: readonly Sided[]): Finding[] {
  const planned = record.planned?.text ?? '';
  for (const word of sideWordsIn(planned)) {
    const candidates = meant(word, targets, accesses);
    const there = allSides(candidates);
    if (there.size > 0 && !share(word.sides, there))
      return [differs('planned', planned, word.sides, candidates[0]?.path ?? '', there)];
  }
  return [];
}

/** The title against all targets together. */
function titleSides(record: CaseRecord, targets: readonly Sided[], accesses: readonly Sided[]): Finding[] {
  const title = record.case.procedure?.text;
  if (title === undefined) return [];
  const path = 'case.procedure';
  const words = sideWordsIn(title);
  const named = sidesOf(words.filter(({ wayIn }) => !wayIn));
  for (const word of words) {
    const candidates = meant(word, targets, accesses);
    const there = allSides(candidates);
    if (there.size === 0) continue;
    if (!share(word.sides, there))
      return [differs(path, title, word.sides, candidates[0]?.path ?? '', there)];
    const same = candidates.some(place => place.parts.some(part => word.parts.includes(part)));
    if (
      !word.wayIn &&
      same &&
      named.size !== there.size &&
      candidates.every(({ path: at }) => at.startsWith('targets'))
    )
      return [
        finding('clinical.side-missing', path, { what: title, side: spoken(named), other: spoken(there) }),
      ];
  }
  return [];
}

/** A finding about a target that gives it another side. */
function aboutTargets(record: CaseRecord, targets: readonly Sided[]): Finding[] {
  return (record.findings ?? []).flatMap(({ text, about }, i) => {
    const target = targets.find(({ key }) => key === about);
    if (target?.sides.size !== 1) return [];
    const sides = sidesOf(sideWordsIn(text).filter(word => isAbout(word, target.parts)));
    if (sides.size === 0 || share(sides, target.sides)) return [];
    return [differs(`findings[${i}].text`, text, sides, target.path, target.sides)];
  });
}

const isAbout = (word: SideWord, parts: readonly BodyPart[]) =>
  word.parts.length === 0 || word.parts.some(part => parts.includes(part));

const elsewhere = /\b(?:blood pressure|take blood|blood samples?|cannula|compare|other)\b/i;

const scan = /\b(?:duplex|ultrasound|scan|CT|MRI?|angiogra\w+|x-?ray|film|mammogra\w+)\b/i;
const wayIn = /\b(?:groins?|wrists?|puncture|neck|access)\b/i;

/** What is to be done for a part of the body of the other side. */
function careSides(record: CaseRecord, targets: readonly Sided[], accesses: readonly Sided[]): Finding[] {
  return (record.aftercare ?? []).flatMap((item, i) => {
    if (elsewhere.test(item.do)) return [];
    const sides = sidesOf(sideWordsIn(item.do).filter(word => word.parts.some(({ paired }) => paired)));
    const parts = sideWordsIn(item.do).flatMap(word => word.parts);
    const places = [...targets, ...accesses].filter(
      place => place.sides.size > 0 && place.parts.some(part => parts.includes(part)),
    );
    // A scan looks at what was treated, a check at the way in.
    const [ways, treated] = [
      places.filter(({ path }) => path.startsWith('access')),
      places.filter(({ path }) => path.startsWith('targets')),
    ];
    const meantHere =
      scan.test(item.do) && treated.length > 0
        ? wayIn.test(item.do)
          ? places
          : treated
        : wayIn.test(item.do) && ways.length > 0
          ? ways
          : places;
    const there = allSides(meantHere);
    if (sides.size === 0 || there.size !== 1 || share(sides, there)) return [];
    return [differs(`aftercare[${i}].do`, item.do, sides, places[0]?.path ?? '', there)];
  });
}

const single =
  /\b(?:thyroid|spleen|splenic|transplant|allograft|horseshoe|graft|solitary|single|both|bilateral|midline|middle lobe|lingula|gallbladder|arteries|veins|kidneys|lungs|ureters|main pulmonary artery)\b/i;

const beside = /\b(?:below|above|beside|near|from|to|with|after|behind|between|around|over|through|at|by)\b/i;

/** A paired organ without a side, and a title for both sides with a target on one. */
function missingSides(record: CaseRecord, targets: readonly Sided[], accesses: readonly Sided[]): Finding[] {
  const unsided = targets.flatMap(({ path, key, text, parts, sides }) => {
    // What lies below the renal veins is no kidney.
    const named = bodyPartsIn(text.split(beside)[0] ?? text);
    const paired = parts.filter(part => part.paired && named.includes(part));
    if (paired.length === 0 || sides.size > 0 || record.targets?.[key]?.side !== undefined) return [];
    if (
      single.test(text) ||
      near(accesses, paired).length > 0 ||
      /\b(?:trunk|bifurcation|vein sampling)\b/i.test(text)
    )
      return [];
    return [
      finding('clinical.side-missing', path, {
        what: text,
        side: message('side.none'),
        other: message('side.oneOrBoth'),
      }),
    ];
  });
  const title = record.case.procedure?.text ?? '';
  const double = sideWordsIn(title).filter(({ sides, parts }) => sides.length === 2 && parts.length > 0);
  const oneSided = double.flatMap(({ parts }) => {
    const places = targets.filter(place => place.parts.some(part => parts.includes(part)));
    const there = allSides(places);
    if (there.size !== 1 || within(['left', 'right'], there)) return [];
    return [
      finding('clinical.side-missing', 'case.procedure', {
        what: title,
        side: spoken(there),
        other: message('side.both'),
      }),
    ];
  });
  return [...unsided, ...oneSided.slice(0, 1)];
}
