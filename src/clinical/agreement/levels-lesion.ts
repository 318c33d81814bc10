import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Told, toldAfter } from '../texts.js';
import { earlierOrBeside, vertebrae } from './levels.js';

/** A lesion, and after it the level at which it lies: 'leak of the thoracic duct at T8'. */
const placed =
  /\b(leak|fistula|fracture|prolapse|stenosis|stricture|perforation|abscess|collection|bleeding|tear)s?\b([^,;:.()]{0,60}?)\b(?:at|at the level of|at the height of|in front of|beside|of) (?:the )?(?:left |right )?([CTDL]\d{1,2}(?:\s?[-/]\s?[CTDL]?\d{1,2})?|(?:\w+ )(?:cervical|thoracic|dorsal|lumbar) vertebra)\b/gi;
/** What lies between tells of something else, or of a way. */
const between = /\b(?:and|with|from|to|above|below|over|until|coils?|glue|stents?|closed|drain\w*|no|not)\b/i;
const denied = /\b(?:no|not|none|without|never|if|may|might|second|another|further|new|also|additional)\b/i;

interface Placed extends Told {
  readonly noun: string;
  readonly levels: readonly string[];
}

function placedIn({ path, text }: Told): Placed[] {
  return text
    .slice(0, 5000)
    .split(/[;,]|\.\s/)
    .filter(clause => !denied.test(clause) && !earlierOrBeside.test(clause))
    .flatMap(clause =>
      [...clause.matchAll(placed)].flatMap(([, noun = '', way = '', level = '']): Placed[] => {
        const levels = vertebrae(level);
        return levels.length === 0 || between.test(way)
          ? []
          : [{ path, text, noun: noun.toLowerCase(), levels }];
      }),
    );
}

/** The level of a leak or another lesion in a target, or else in a finding, against what is told of the same lesion. */
export function checkLesionLevels(record: CaseRecord): Finding[] {
  const targets = Object.entries(record.targets ?? {});
  // Where the target itself is a level, all texts are held against it anyway.
  if (targets.some(([, { what }]) => vertebrae(what.text).length > 0)) return [];
  const lesions = targets.flatMap(([key, { lesion }]) =>
    placedIn({ path: `targets.${key}.lesion`, text: lesion?.text ?? '' }),
  );
  const findings = (record.findings ?? []).flatMap(({ text }, i) =>
    placedIn({ path: `findings[${i}].text`, text }),
  );
  const results = (record.events ?? []).flatMap(({ result }, i) =>
    placedIn({ path: `events[${i}].result`, text: result ?? '' }),
  );
  const known = lesions.length > 0 ? lesions : findings;
  const told = [
    // An examination before the case may have placed it elsewhere.
    ...toldAfter(record).flatMap(placedIn),
    ...(lesions.length > 0 ? findings : []),
    ...results,
  ];
  const said = new Set<string>();
  return told.flatMap(({ path, text, noun }) => {
    const same = known.filter(one => one.noun === noun);
    const all = new Set(same.flatMap(one => one.levels));
    const [first] = same;
    // 'A second leak at T10 besides that at T8' names the first as well.
    if (!first || said.has(path) || vertebrae(text).some(level => all.has(level))) return [];
    said.add(path);
    return [finding('clinical.level-differs', path, { text, other: first.text, place: first.path })];
  });
}
