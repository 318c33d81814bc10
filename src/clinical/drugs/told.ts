import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { allergenTable } from '../../trade/drugs/allergens.js';
import { antimicrobials } from '../../trade/drugs/antimicrobials.js';
import { drugsIn } from '../../trade/drugs/table.js';
import { wordsOf } from '../../trade/words.js';
import { conditionsTold, type Told, toldAfter, toldBefore, toldDuring, toldToReaders } from '../texts.js';

/** A substance that a text before the case calls an allergy. */
export interface ToldAllergy extends Told {
  readonly to: string;
}

const substance = '([\\p{L}][\\p{L}\\d-]*(?: [\\p{L}\\d-]+){0,3})';
const forms: readonly RegExp[] = [
  new RegExp(
    `\\b(?:allerg(?:ic|y|ies)|hypersensitiv\\w*|anaphyla\\w+|urticaria|hives|rash|reaction|reacted|reacts|angio-?o?edema|intoleran\\w+) (?:badly |severely )?(?:to|from|with|after) (?:the )?${substance}`,
    'iu',
  ),
  new RegExp(`\\ballerg(?:ies|y|ic)\\s?: ?${substance}`, 'iu'),
  new RegExp(`${substance} (?:allergy|allergic|hypersensitivity|anaphylaxis)\\b`, 'iu'),
];
const denied =
  /\b(?:no|not|never|nil|denies|denied|without|ruled out|excluded|negative|de-?labelled|delabeled|tolerated|tolerates|non|father|mother|brother|sister|family|if|free|premedicat\w+|unlikely|disproved|outgrown)\b/i;

/** Allergies that conditions, words before the case and advice tell of, to substances that a table knows. */
export function allergiesTold(record: CaseRecord): readonly ToldAllergy[] {
  const texts = [
    ...toldBefore(record),
    ...conditionsTold(record),
    // What readers are told comes in headings: 'Allergic to contrast: none without cover'.
    ...toldToReaders(record).flatMap(({ path, text }) =>
      text.split(/:\s/).map(part => ({ path, text: part })),
    ),
  ];
  return texts.flatMap(({ path, text }) =>
    text.split(/[.;]\s|;|,\s(?!and)/).flatMap(clause => {
      if (denied.test(clause)) return [];
      for (const form of forms) {
        const found = form.exec(clause)?.[1];
        const to = found === undefined ? undefined : known(found);
        if (to !== undefined) return [{ path, text: clause, to }];
      }
      return [];
    }),
  );
}

/** The longest run of words that names an allergen or a drug. */
function known(text: string): string | undefined {
  const words = text.split(' ');
  for (let length = words.length; length > 0; length--)
    for (let from = 0; from + length <= words.length; from++) {
      const part = words.slice(from, from + length).join(' ');
      if (allergenTable.find(part) || drugsIn(part).length > 0) return part;
    }
  return undefined;
}

/** Told allergies that the list does not have. */
export function unsaidAllergies(record: CaseRecord): ToldAllergy[] {
  const listed = entriesOf(record.before?.allergies).map(({ to }) => to.text);
  const families = new Set(listed.flatMap(text => familiesOf(text)));
  return allergiesTold(record).filter(
    ({ to }) =>
      !familiesOf(to).some(family => families.has(family)) &&
      !listed.some(text => wordsOf(text).some(word => wordsOf(to).includes(word))),
  );
}

const familiesOf = (text: string): readonly string[] => [
  ...(allergenTable.find(text)?.row.families ?? []),
  ...drugsIn(text).flatMap(({ name, families }) => [name, ...families]),
  ...text.split(/[,;/+()]|\band\b|\bor\b/i).flatMap(part => allergenTable.find(part)?.row.families ?? []),
];

export const allergyUnsaid = (record: CaseRecord): Finding[] =>
  unsaidAllergies(record).map(({ path, text }) => finding('clinical.allergy-unsaid', path, { text }));

const given =
  /\b(?:given|received|administered|covered (?:with|by)|cover with|dose of|got|had)\b|\bprophyla\w+\b(?! (?:of|against|for) (?:thromb|dvt|clot))/i;
const none =
  /\b(?:no|without|not|nil) (?:\w+ ){0,2}(?:antibiotics?|prophylax\w+|antimicrobials?)\b|\bantibiotics?(?: prophylaxis)? (?:was |were )?(?:not (?:given|needed|required)|forgotten|omitted|missed|withheld|refused)\b/i;
const notNow =
  /\b(?:not|no|if|previous\w*|earlier|yesterday|home|course|until|days?|week|stopped|to be|should|will|allerg\w*|in \d{4}|on the ward since|for (?:sepsis|cholangitis|infection)|oral|tablets?)\b/i;

/** Antibiotics in words of the case, against those among its drugs. */
export function prophylaxisTold(record: CaseRecord): Finding[] {
  const drugs = entriesOf(record.drugs);
  const anti = drugs.filter(({ drug, for: purpose }) => purpose === 'prophylaxis' || isAntibiotic(drug.text));
  const listed = anti.map(({ drug }) => drug.text).join(', ');
  const names = new Set(drugs.flatMap(({ drug }) => drugsIn(drug.text).map(({ name }) => name)));
  const texts = [
    ...toldBefore(record).filter(
      ({ path }) => path === 'before.checklist.note' || path === 'before.observations',
    ),
    ...toldDuring(record),
    ...toldAfter(record),
  ];
  return texts
    .flatMap(({ path, text }) => {
      const differs = text.split(/[.;]\s|;/).find(clause => {
        if (none.test(clause)) return anti.some(({ for: purpose }) => purpose === 'prophylaxis');
        if (!given.test(clause) || notNow.test(clause)) return false;
        const named = clause
          .split(/[\s,]+/)
          .flatMap(word => drugsIn(word))
          .filter(({ name }) => isAntibiotic(name));
        return (
          named.some(({ name }) => !names.has(name)) ||
          (named.length === 0 &&
            anti.length === 0 &&
            /\bantibiotics? (?:\w+ )?(?:was |were )?given\b|\bgiven antibiotics?\b/i.test(clause))
        );
      });
      return differs === undefined
        ? []
        : [
            finding('clinical.prophylaxis-differs', path, {
              text: differs,
              drugs: listed === '' ? '–' : listed,
            }),
          ];
    })
    .slice(0, 1);
}

const antibiotics = new Set(antimicrobials.map(({ name }) => name));
const isAntibiotic = (text: string) => drugsIn(text).some(({ name }) => antibiotics.has(name));
