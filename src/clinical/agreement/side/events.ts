import type { Finding } from '../../../findings/finding.js';
import { entriesOf } from '../../../record/entries.js';
import type { CaseEvent, CaseRecord } from '../../../record/schema/record.js';
import type { BodyPart } from '../../../trade/body.js';
import { differs } from './finding.js';
import { allSides, type Sided } from './sided.js';
import { type Side, type SideWord, share, sidesOf, sideWordsIn } from './words.js';

interface At {
  readonly event: CaseEvent;
  readonly path: string;
}

/** What a vessel of the pelvis comes from, of its own side. */
const feeds = /\binternal iliac\b/i;

/** Words of a text that speak of the place: one of its parts, or the vessel that feeds it. */
const about = (text: string, parts: readonly BodyPart[]): readonly SideWord[] => {
  const fed = feeds.test(text) && parts.some(({ region }) => region === 'pelvis');
  return sideWordsIn(text).filter(word =>
    word.parts.some(part => parts.includes(part) || (fed && part.name === 'iliac')),
  );
};

/** Where events go and what they tell, against the target or the way in that they name. */
export function eventSides(
  record: CaseRecord,
  targets: readonly Sided[],
  accesses: readonly Sided[],
): Finding[] {
  const events = (record.events ?? [])
    .map((event, i): At => ({ event, path: `events[${i}]` }))
    .sort((a, b) => a.event.at.epoch - b.event.at.epoch);
  return [
    ...ofTargets(events, targets),
    ...ofAccess(events, accesses),
    ...ofSpecimens(record, targets),
    ...leftHeart(record, accesses),
  ];
}

const against = (path: string, text: string, words: readonly SideWord[], place: Sided): Finding[] => {
  const sides = sidesOf(words);
  return place.sides.size !== 1 || sides.size !== 1 || share(sides, place.sides)
    ? []
    : [differs(path, text, sides, place.path, place.sides)];
};

/** What is done for a target is done where it is: by its own words, or where the catheter was taken last. */
function ofTargets(events: readonly At[], targets: readonly Sided[]): Finding[] {
  const standing = new Map<string, At>();
  return events.flatMap(({ event, path }) => {
    const target = targets.find(({ key }) => key === (event.target ?? event.across));
    const found: Finding[] = [];
    const into = event.into?.text;
    if (target) {
      if (into !== undefined) found.push(...against(`${path}.into`, into, about(into, target.parts), target));
      for (const field of ['result', 'note'] as const)
        found.push(
          ...against(`${path}.${field}`, event[field] ?? '', about(event[field] ?? '', target.parts), target),
        );
      for (const key of [event.device, event.through]) {
        const stood = key === undefined ? undefined : standing.get(key);
        const text = stood?.event.into?.text;
        if (stood && text !== undefined && into === undefined)
          found.push(...against(`${stood.path}.into`, text, about(text, target.parts), target));
      }
    }
    if (event.device !== undefined && into !== undefined) standing.set(event.device, { event, path });
    if (event.do === 'remove' || event.do === 'withdraw') standing.delete(event.device ?? '');
    // What a catheter shows where it stands lies on the side where it stands.
    if (!target && into === undefined && event.do === 'inject' && event.result !== undefined) {
      const text = standing.get(event.device ?? '')?.event.into?.text ?? '';
      const there = sideWordsIn(text);
      const parts = there.flatMap(word => word.parts);
      const told = about(event.result, parts);
      const [sides, own] = [sidesOf(told), sidesOf(there)];
      if (sides.size === 1 && own.size === 1 && !share(sides, own))
        found.push(differs(`${path}.result`, event.result, sides, text, own));
    }
    return found;
  });
}

/** What goes in through an access, or through the needle in it, is on its side as far as the same limb goes. */
function ofAccess(events: readonly At[], accesses: readonly Sided[]): Finding[] {
  const needles = new Map<string, Sided>();
  return events.flatMap(({ event, path }) => {
    const named = accesses.find(({ key }) => key === event.access);
    if (event.do === 'puncture' && named && event.device !== undefined) needles.set(event.device, named);
    const into = event.into?.text;
    const place = named ?? needles.get(event.through ?? '');
    if (place?.sides.size !== 1 || into === undefined || event.do === 'puncture') return [];
    const words = sideWordsIn(into).filter(word =>
      word.parts.some(
        part =>
          place.parts.includes(part) ||
          // Through the needle a wire has not yet gone over to the other side.
          (named === undefined && place.parts.some(({ region, paired }) => paired && region === part.region)),
      ),
    );
    return against(`${path}.into`, into, words, place);
  });
}

/** A specimen is of the side of the target that it is from, and of the side of which it is told. */
function ofSpecimens(record: CaseRecord, targets: readonly Sided[]): Finding[] {
  return entriesOf(record.specimens).flatMap(({ what, from }, i) => {
    const target = targets.find(({ key }) => key === from);
    return target ? against(`specimens[${i}].what`, what.text, about(what.text, target.parts), target) : [];
  });
}

const ofLeftHeart = /\bleft (?:atrium|ventricle|atrial|heart)\b/i;
const throughSeptum =
  /\b(?:septal|septum|appendage|mitral|foramen ovale|shunt|pulmonary vein|thrombus|arter(?:y|ies)|aort\w+)\b/i;
const venous =
  /\b(?:jugular|subclavian vein|femoral vein|basilic|cephalic|brachial vein|axillary vein|vein)\b/i;

/** A line or catheter from a vein reaches the right heart. */
function leftHeart(record: CaseRecord, accesses: readonly Sided[]): Finding[] {
  const way = accesses.find(({ text }) => venous.test(text));
  const all = [record.case.kind, record.case.procedure?.text ?? '', ...accesses.map(({ text }) => text)].join(
    ' ',
  );
  if (!way || throughSeptum.test(all)) return [];
  const texts = [
    ...(record.events ?? []).flatMap(({ into, result }, i) => [
      [`events[${i}].into`, into?.text] as const,
      [`events[${i}].result`, result] as const,
    ]),
    ...(record.findings ?? []).map(({ text }, i) => [`findings[${i}].text`, text] as const),
    ...entriesOf(record.left).flatMap(({ site, tip }, i) => [
      [`left[${i}].site`, site?.text] as const,
      [`left[${i}].tip`, tip] as const,
    ]),
    ['outcome.text', record.outcome?.text] as const,
    ['conclusion', record.conclusion] as const,
  ];
  const left: readonly Side[] = ['left'];
  return texts.flatMap(([path, text]) => {
    if (
      text === undefined ||
      !ofLeftHeart.test(text) ||
      /\b(?:no|not|without|strain\w*|function|enlarged)\b/i.test(text)
    )
      return [];
    return /\b(?:tip|line|catheter|into|in the|at)\b/i.test(text) ||
      path.endsWith('into') ||
      path.endsWith('tip')
      ? [differs(path, text, left, way.path, new Set<Side>(['right']))]
      : [];
  });
}

const closed = /\b(?:closed|occluded|thrombosed|blocked|not patent|obliterated|clotted)\b/i;
const reopening =
  /\b(?:recanali\w+|thromboly\w+|thrombectom\w+|angioplast\w+|venoplast\w+|stent\w*|declot\w*|exchange through)\b/i;

/** A vessel that is told to be closed before the case, and through which the case went. */
export function closedWays(
  record: CaseRecord,
  texts: readonly { readonly path: string; readonly text: string }[],
  accesses: readonly Sided[],
): Finding[] {
  if (reopening.test(`${record.case.kind} ${record.case.procedure?.text ?? ''}`)) return [];
  return texts.flatMap(({ path, text }) =>
    text
      .split(/[.;,]\s|;|\band\b/)
      .filter(clause => closed.test(clause) && !/\b(?:not|no|never|nearly|partly|was)\b/i.test(clause))
      .flatMap(clause => sideWordsIn(clause))
      .flatMap(word => {
        const way = accesses.find(
          ({ parts, sides, text: site }) =>
            sides.size === 1 &&
            venous.test(site) &&
            share(word.sides, sides) &&
            parts.some(part => word.parts.includes(part)),
        );
        const other: readonly Side[] = word.sides.includes('left') ? ['right'] : ['left'];
        return way && word.sides.length === 1 && allSides([way]).size === 1
          ? [differs(way.path, way.text, word.sides, text, new Set(other))].map(found => ({ ...found, path }))
          : [];
      })
      .slice(0, 1),
  );
}
