import type { Finding } from '../../../findings/finding.js';
import { entriesOf } from '../../../record/entries.js';
import type { CaseRecord } from '../../../record/schema/record.js';
import { conditionsTold, type Told, toldAfter, toldBefore, toldToReaders } from '../../texts.js';
import { closedWays } from './events.js';
import { differs } from './finding.js';
import { allSides, meant, type Sided } from './sided.js';
import { bareSides, namedSides, type Side, type SideWord, share, sidesOf, sideWordsIn } from './words.js';

/** What is felt in one region and comes from another of the same side. */
const felt: Readonly<Record<string, readonly string[]>> = {
  spine: ['leg', 'arm'],
  leg: ['leg'],
  arm: ['arm'],
};

const elsewhere =
  /\b(?:blood pressure|take blood|blood samples?|cannula|compare|other|opposite|lie|lying|sleep|turn|roll|also|too|biops\w+ of the|scar|clearance|mastectomy|amputat\w+|stump|stroke|weak|weakness|palsy|moves?|moving|strength|strong|power|fistula|pacemaker|pulses?|handed|port|line|drip|cuff|us(?:e|ing) (?:only )?the (?:left|right) (?:upper )?(?:arm|hand|leg)|lift\w*|carry\w*|stick|crutch\w*|cane|writ\w*|with (?:the|his|her|your) (?:left|right) (?:hand|arm|foot)|can wait|may be used|instead|to be (?:watched|followed|treated|seen)|(?:next|second) session)\b/i;
const consented = /\b(?:only|side only|not the)\b/i;

/** Why it was done, what came of it and what readers are told, where all that is meant lies on the other side. */
export function toldSides(
  record: CaseRecord,
  targets: readonly Sided[],
  accesses: readonly Sided[],
): Finding[] {
  const story = [...toldBefore(record), ...toldAfter(record)].filter(
    ({ path }) => !/^(?:before\.(?:observations|checklist|fasting|consent)|outcome\.disposition)/.test(path),
  );
  const seen = knownBefore(record);
  return [
    ...story.flatMap(one => ofTargets(one, targets)),
    ...conditionsTold(record)
      .filter(({ path }) => path.startsWith('indication'))
      .flatMap(one => ofTargets(one, targets)),
    ...story.filter(({ path }) => path.startsWith('indication')).flatMap(one => ofSymptoms(one, targets)),
    ...[...toldBefore(record), ...toldAfter(record), ...toldToReaders(record)].flatMap(one =>
      ofNoPart(one, targets, accesses),
    ),
    ...closedWays(record, [...toldBefore(record), ...conditionsTold(record)], accesses),
    ...entriesOf(record.specimens).flatMap(({ what }, i) =>
      ofTargets({ path: `specimens[${i}].what`, text: what.text }, targets),
    ),
    ...[
      ...toldAfter(record),
      ...toldToReaders(record).filter(({ path }) => path.startsWith('advice')),
    ].flatMap(one => ofAnyPlace(one, targets, accesses, seen)),
    ...consentSides(record, targets),
    ...treatedToo(record, targets),
  ];
}

/** Words about the organ of a target, or about where its trouble is felt. */
function ofTargets({ path, text }: Told, targets: readonly Sided[]): Finding[] {
  const early = /^(?:indication|before)\b/.test(path);
  const words = early
    ? text
        .slice(0, 5000)
        .split(/[.;,]\s|;/)
        .flatMap(clause => (gone.test(clause) ? [] : sideWordsIn(clause)))
    : sideWordsIn(text).filter(({ parts }) => parts.some(({ paired }) => paired) || !flowing.test(text));
  for (const target of targets) {
    // Only a request tells where it hurts; later a leg may be that of the way in.
    const symptom = path.startsWith('indication');
    const regions = new Set(symptom ? target.parts.flatMap(({ region }) => felt[region] ?? []) : []);
    const own = words.filter(word =>
      word.parts.some(part => target.parts.includes(part) || regions.has(part.region)),
    );
    const there = allSides(targets.filter(({ parts }) => parts.some(part => target.parts.includes(part))));
    const sides = sidesOf(own);
    // 'Left stenosis 30 %, right 80 %' tells of both.
    if (sides.size > 0 && there.size > 0 && !share(sides, there) && !share(namedSides(text), there))
      return [differs(path, text, sides, target.path, there)];
  }
  return [];
}

const symptoms =
  /\b(?:pain|painful|ache|claudication|swelling|swollen|ulcers?|wound|gangrene|numb\w*|sciatica|colic|rest pain|cold|radiculopathy)\b/i;
const bothWays = /\b(?:also|too|worse|less|more|both|than|later|first|scar|amputat\w+|since surgery)\b/i;

/** Where it hurts, clause by clause: a second clause may name what is treated rightly. */
function ofSymptoms({ path, text }: Told, targets: readonly Sided[]): Finding[] {
  const regions = new Set(
    targets.flatMap(({ parts }) => parts.flatMap(({ region }) => felt[region] ?? [region])),
  );
  const there = allSides(targets);
  if (there.size !== 1 || targets.some(({ parts }) => parts.some(({ region }) => region === 'head')))
    return [];
  for (const clause of text.split(/[.;,]\s|;/)) {
    if (!symptoms.test(clause) || bothWays.test(clause)) continue;
    const sides = sidesOf(
      sideWordsIn(clause).filter(word => word.parts.some(({ region }) => regions.has(region))),
    );
    if (sides.size === 1 && !share(sides, there))
      return [differs(path, text, sides, targets[0]?.path ?? '', there)];
  }
  return [];
}

/** What lies 'on the left' of a case that is all on one side. */
const lies =
  /\b(?:drain|tube|nephrostomy|port|line|catheter|effusion|collection|abscess|prolapse|hernia|tumou?r|mass|nodule|lesion|stenosis|occlusion|tunnel|empyema|haematoma|stone|leak|veins?|pocket|coils?|stents?|hydronephrosis|pneumothorax)\b/i;

function ofNoPart({ path, text }: Told, targets: readonly Sided[], accesses: readonly Sided[]): Finding[] {
  if (targets.some(({ parts }) => parts.some(({ region }) => region === 'head'))) return [];
  const there = allSides([...targets, ...accesses]);
  if (there.size !== 1) return [];
  for (const clause of text.split(/[.;,]\s|;/)) {
    if (!lies.test(clause) || shifted.test(clause)) continue;
    const words = sideWordsIn(clause);
    const sides = sidesOf(words);
    if (
      words.length > 0 &&
      words.every(({ parts }) => parts.length === 0) &&
      sides.size === 1 &&
      !share(sides, there)
    )
      return [differs(path, text, sides, (targets[0] ?? accesses[0])?.path ?? '', there)];
  }
  return [];
}

const shifted =
  /\b(?:shift\w*|moved|pushed|toward|towards|other|old|small|second|another|lie|lying|sleep|no|none|normal|clear|tip|also|besides|watch\w*|follow\w*|biopsy|pacemaker|fistula)\b/i;

/** Of two branches of one organ the other one stays open. */
const flowing = /\b(?:open|patent|intact|spared)\b/i;
/** An organ that was replaced or taken out is often the other one. */
const gone =
  /\b(?:taken out|lost|replace\w*|prosthes\w+|arthroplasty|removed|absent|\w+ectomy|amputat\w+)\b/i;

/** What was seen on either side before the case: advice may well be about what was not treated. */
const knownBefore = (record: CaseRecord): readonly SideWord[] =>
  [...toldBefore(record), ...conditionsTold(record)].flatMap(({ text }) => sideWordsIn(text));

/** Words about a target or a way in: 'left chest port', 'right groin soft'. */
function ofAnyPlace(
  { path, text }: Told,
  targets: readonly Sided[],
  accesses: readonly Sided[],
  before: readonly SideWord[],
): Finding[] {
  const words = text
    .split(/[.;,]\s|;/)
    .filter(clause => !elsewhere.test(clause) || /\bchest port\b/i.test(clause))
    .flatMap(clause => sideWordsIn(clause))
    .filter(word => word.parts.some(({ paired, name }) => paired || name === 'chest wall'));
  for (const word of words) {
    const candidates = placesOf(word, targets, accesses, !/^(?:conclusion|outcome\.text)/.test(path));
    const there = allSides(candidates);
    const isKnown = before.some(
      one =>
        word.sides.every(side => one.sides.includes(side)) &&
        one.parts.some(part => word.parts.includes(part)),
    );
    if (there.size > 0 && !isKnown && !share(word.sides, there) && !share(bareSides(text), there))
      return [differs(path, text, word.sides, candidates[0]?.path ?? '', there)];
  }
  return [];
}

function placesOf(
  word: SideWord,
  targets: readonly Sided[],
  accesses: readonly Sided[],
  asLimb: boolean,
): readonly Sided[] {
  const sided = accesses.filter(({ sides }) => sides.size > 0);
  const ways = sided.filter(({ parts }) => parts.some(part => word.parts.includes(part)));
  // A foot or a groin may be that of a way in or of a target: either side is right then.
  const found = meant(word, targets, accesses);
  if (found.length === 0 && ways.length === 0) return [];
  const limb = word.parts.find(({ name }) => name === 'leg' || name === 'arm');
  const ofLimb = sided.filter(({ parts }) => asLimb && parts.some(({ region }) => region === limb?.region));
  return [...new Set([...found, ...ways, ...ofLimb])];
}

const done =
  /\b(?:entered|catheteri[sz]ed|selected|coiled|(?:closed|emboli[sz]ed|dilated|treated|filled) with)\b/i;
const notNow = /\b(?:before|already|earlier|existing|old|later|planned|next|cannot|could)\b/i;

/** A finding that tells of the other side as treated, where no event and no target knows it. */
function treatedToo(record: CaseRecord, targets: readonly Sided[]): Finding[] {
  const known = [
    ...(record.events ?? []).flatMap(({ into, result, note }) => [into?.text, result, note]),
    ...entriesOf(record.left).map(({ site }) => site?.text),
    ...(record.access ?? []).map(({ site }) => site.text),
  ].flatMap(text => sideWordsIn(text ?? ''));
  return (record.findings ?? []).flatMap(({ text, about }, i) => {
    if (about !== undefined || !done.test(text) || notNow.test(text)) return [];
    return sideWordsIn(text)
      .flatMap(({ sides, parts }) => {
        const same = targets.filter(target => target.parts.some(part => parts.includes(part)));
        const there = allSides(same);
        const seen = known.some(
          word => share(word.sides, new Set(sides)) && word.parts.some(part => parts.includes(part)),
        );
        return parts.some(({ paired }) => paired) && there.size === 1 && !share(sides, there) && !seen
          ? [differs(`findings[${i}].text`, text, sides, same[0]?.path ?? '', there)]
          : [];
      })
      .slice(0, 1);
  });
}

/** Consent for one side of a case that did both or the other. */
function consentSides(record: CaseRecord, targets: readonly Sided[]): Finding[] {
  const text = record.before?.consent?.note ?? '';
  const sides = new Set(
    [...text.matchAll(/\b(left|right)\b/gi)].map(
      ([word]): Side => (word.toLowerCase() === 'left' ? 'left' : 'right'),
    ),
  );
  const there = allSides(targets);
  const [only] = sides;
  if (sides.size !== 1 || only === undefined || there.size === 0) return [];
  return there.has(only) && !(consented.test(text) && there.size > 1)
    ? []
    : [differs('before.consent.note', text, sides, targets[0]?.path ?? '', there)];
}
