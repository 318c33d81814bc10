import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { contrastOf, elementOf } from '../kidney/contrast.js';
import type { Given } from './given.js';

/** Words of drug names that many unlike drugs share. */
const shared = new Set(
  'acid acetate calcium chloride citrate contrast drug drugs hydrochloride injection iodinated iodine magnesium medium media phosphate potassium sodium solution sulfate sulphate water with'.split(
    ' ',
  ),
);

/** Classes that an allergy is often written as, and the names that belong to them. Common practice, no source. */
const classes: readonly (readonly [allergy: RegExp, given: RegExp])[] = [
  [/\bpenicillin/i, /cillin\b|co-?amoxiclav|tazobactam/i],
  [/\bcephalosporin|\bcefalosporin/i, /\b(?:cef|ceph)[a-z]+/i],
  [/\blocal an(?:ae|e)sthetic/i, /\b[a-z]+caine\b/i],
  [
    /\bopioid|\bopiate/i,
    /\b(?:morphine|fentanyl|[a-z]*fentanil|pethidine|oxycodone|hydromorphone|codeine)\b/i,
  ],
  [/\bbenzodiazepine/i, /\b[a-z]+azepam\b|\b[a-z]+azolam\b/i],
];

/** An allergy that meets a drug or contrast given: the same substance, or one of a class that was named. */
export function allergies(record: CaseRecord, given: readonly Given[]): Finding[] {
  const list = record.before?.allergies;
  if (!list || list === 'none') return [];
  const drugs = given.map(({ drug, path }) => ({ name: drug.drug.text, path, contrast: false }));
  const media = contrastOf(record).map(({ given: { agent }, path }) => ({
    name: agent.text,
    path,
    contrast: true,
  }));
  return list.flatMap(({ to }) =>
    [...drugs, ...media]
      .filter(
        ({ name, contrast }) =>
          sameSubstance(to.text, name) ||
          sameClass(to.text, name) ||
          (contrast && contrastAllergy(to.text, name)),
      )
      .map(({ name, path }) => finding('clinical.allergy-given', path, { given: name, allergy: to.text })),
  );
}

/** A whole word of one name in the other, words that unlike drugs share aside. */
function sameSubstance(allergy: string, given: string): boolean {
  const words = (text: string) =>
    text
      .toLowerCase()
      .split(/[^\p{L}\p{N}]+/u)
      .filter(word => word.length > 3 && !shared.has(word));
  const known = words(allergy);
  return words(given).some(word => known.includes(word));
}

const sameClass = (allergy: string, given: string) =>
  classes.some(([of, member]) => of.test(allergy) && member.test(given));

/** `Iodinated contrast` does not speak of gadolinium, nor the other way round; `contrast` alone speaks of both. */
function contrastAllergy(allergy: string, agent: string): boolean {
  const element = elementOf(agent);
  if (element === 'none') return false;
  if (/gado/i.test(allergy)) return element === 'gadolinium';
  if (/\biodinated|\biodine.*contrast|\bcontrast.*iodine/i.test(allergy)) return element !== 'gadolinium';
  return /\bcontrast\b/i.test(allergy);
}
