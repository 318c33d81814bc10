import type { Finding } from '../../../findings/finding.js';
import type { CaseRecord } from '../../../record/schema/record.js';
import { differs } from './finding.js';
import { allSides, type Sided } from './sided.js';
import { share, sidesOf, sideWordsIn } from './words.js';

const direct: ReadonlySet<string> = new Set(['kidney', 'thorax', 'breast']);
const vessel =
  /\b(?:arter(?:y|ies)|veins?|jugular|femoral|radial|graft|fistula|subclavian|basilic|cephalic|groin|wrist|arm|forearm|elbow|neck|thigh|carotid|brachial|popliteal|tibial|pedal)\b/i;

/** A needle through the skin reaches a kidney, a lung or a breast from its own side. */
export function straightIn(
  record: CaseRecord,
  targets: readonly Sided[],
  accesses: readonly Sided[],
): Finding[] {
  const reached = targets.filter(
    ({ parts, text }) => parts.some(({ region }) => direct.has(region)) && !vessel.test(text),
  );
  const there = allSides(reached);
  if (there.size !== 1 || reached.length !== targets.length) return [];
  return accesses.flatMap((place, i) => {
    const through = `${place.text} ${record.access?.[i]?.approach ?? ''}`;
    if (place.sides.size !== 1 || vessel.test(through) || share(place.sides, there)) return [];
    return [differs(`${place.path}.side`, place.text, place.sides, reached[0]?.path ?? '', there)];
  });
}

/** What a puncture enters lies on the side of its access, unless both are branches of one organ. */
export function punctures(record: CaseRecord, accesses: readonly Sided[]): Finding[] {
  return (record.events ?? []).flatMap((event, i) => {
    if (event.do !== 'puncture') return [];
    const place = accesses.find(({ key }) => key === event.access);
    if (!place || !event.into || place.sides.size !== 1) return [];
    const words = sideWordsIn(event.into.text).filter(({ parts }) =>
      parts.some(part => place.parts.includes(part) || (direct.has(part.region) && !vessel.test(place.text))),
    );
    const sides = sidesOf(words);
    if (sides.size === 0 || share(sides, place.sides)) return [];
    return [differs(`events[${i}].into`, event.into.text, sides, place.path, place.sides)];
  });
}

/** A sheath or guiding catheter in the neck goes to the side that is treated. */
export function largeSheaths(record: CaseRecord, targets: readonly Sided[]): Finding[] {
  const inHead = targets.filter(({ parts }) => parts.some(({ region }) => region === 'head'));
  const there = allSides(inHead);
  if (there.size !== 1) return [];
  const into = (record.events ?? []).map((event, i) => ({
    event,
    path: `events[${i}].into`,
    sides: sidesOf(
      sideWordsIn(event.into?.text ?? '').filter(({ parts }) => parts.some(({ name }) => name === 'carotid')),
    ),
  }));
  return into.flatMap(({ event, path, sides }) => {
    const kind = record.devices?.[event.device ?? '']?.kind ?? '';
    if (sides.size !== 1 || share(sides, there) || !/sheath|guid(?:e|ing) catheter/i.test(kind)) return [];
    const later = into.some(one => one.event.device === event.device && share(one.sides, there));
    return later ? [] : [differs(path, event.into?.text ?? '', sides, inHead[0]?.path ?? '', there)];
  });
}
