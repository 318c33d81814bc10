import type { Finding } from '../../../findings/finding.js';
import type { CaseRecord } from '../../../record/schema/record.js';
import { type Told, toldBefore } from '../../texts.js';
import { differs } from './finding.js';
import { allSides, type Sided } from './sided.js';
import { type Side, share } from './words.js';

/** Vessels and halves of the brain whose body half is the opposite one. Common practice, no source. */
const crossed =
  /\b(?:(?:internal |common )?carotid (?:arter\w+|bifurcation|bulb|stenosis|occlusion|siphon|terminus|T)|carotid T|(?:middle|anterior) cerebral|MCA|ACA|[MA][12](?: segment)?|(?:cerebral )?hemisphere)\b/i;
const uncrossed =
  /\b(?:external|body|glomus|tumou?r|vertebral|basilar|posterior|cerebell\w+|ophthalmic|meningeal|cavernous|blow-?out|fistula)\b/i;

const half = '(?:left|right)';
const limb =
  '(?:upper |lower )?(?:arms?|legs?|hands?|face|body|limbs?|half of the body|side of the (?:body|face)|side)';
const loss =
  '(?:weakness|weak|numbness|numb|paralysis|paralysed|paresis|hemi(?:paresis|plegia|parese|hypaesthesia|sensory)|plegia|monoparesis|clumsiness|clumsy|drift)';
const lost = new RegExp(
  [
    `\\b${loss} (?:of|in|on|to) (?:the |his |her )?(${half})(?:[- ](?:sided )?${limb}\\b|\\s*$)`,
    `\\b(${half})(?:-sided| sided)? ${loss}\\b`,
    `\\b(${half}) ${limb} (?:and (?:arm|leg|hand|face) )?(?:was |is |became |were )?${loss}\\b`,
  ].join('|'),
  'gi',
);
/** What else takes the strength of an arm or a leg. */
const otherCause =
  /\b(?:trauma|injur\w+|accident|fracture\w*|nerves?|plexus|neuropath\w+|radiculopath\w+|disc|carpal|polio|shoulder|hip|knee|amputat\w+|Bell|eyes?|eyelid|sight|vision|blind\w*|seizures?|migraine|residual|known|chronic|longstanding|years ago|for years|childhood|birth|earlier|previous\w*|former|old stroke|history|asymptomatic|no|not|without|never|crossed|same side|ipsilateral|in (?:19|20)\d\d)\b/i;

/** Weakness or numbness of a half of the body lies opposite the half of the brain that lacks blood. */
export function brainSides(record: CaseRecord, targets: readonly Sided[]): Finding[] {
  const inHead = targets.filter(({ text }) => crossed.test(text) && !uncrossed.test(text));
  const there = allSides(inHead);
  const [only] = there;
  if (there.size !== 1 || only === undefined || inHead.length !== targets.length) return [];
  const expected: ReadonlySet<Side> = new Set([only === 'left' ? 'right' : 'left']);
  return toldBefore(record)
    .filter(({ path }) => path.startsWith('indication') || path === 'before.observations')
    .flatMap(told => against(told, expected, inHead));
}

function against({ path, text }: Told, expected: ReadonlySet<Side>, places: readonly Sided[]): Finding[] {
  const clauses = text.slice(0, 5000).split(/[.;]\s|;/);
  const told = clauses.flatMap(clause =>
    [...clause.matchAll(lost)].map(([, a, b, c]) => ({ side: (a ?? b ?? c ?? '').toLowerCase(), clause })),
  );
  if (told.length === 0 || told.some(({ clause }) => otherCause.test(clause))) return [];
  const sides = new Set(told.map(({ side }): Side => (side === 'left' ? 'left' : 'right')));
  // 'The left arm and the right leg' tells of both halves.
  const both = /\bboth\b|\bbilateral/i.test(text);
  return sides.size !== 1 || both || share(sides, expected)
    ? []
    : [differs(path, text, sides, places[0]?.path ?? '', allSides(places))];
}
