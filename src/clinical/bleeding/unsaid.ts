import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { drugsIn, drugTable } from '../../trade/drugs/table.js';
import { wordsOf } from '../../trade/words.js';
import { isTurned, phrasesIn } from '../notes.js';

/** Drugs that affect bleeding, by the words of each of their names. */
const thinners = drugTable.rows
  // Heparin alone is as often a flush.
  .filter(
    ({ name, families }) =>
      name !== 'heparin' &&
      families.some(family => ['anticoagulant', 'antiplatelet', 'heparin'].includes(family)),
  )
  .flatMap(row => [row.name, ...row.aliases].map(name => ({ row, words: wordsOf(name) })))
  .filter(({ words }) => words.length === 1);

const startsAgain = /\b(?:re-?start\w*|resum\w+|again|as before|usual|carry on|continue)\b/i;

/** Blood thinners that conditions, words before the case or the plan after it name and the list of anticoagulants has not. */
export function unsaidAnticoagulants(record: CaseRecord): Finding[] {
  const { before } = record;
  const list = before?.anticoagulants;
  const listed = new Set(entriesOf(list).flatMap(({ drug }) => drugsIn(drug.text).map(({ name }) => name)));
  const texts = phrasesIn(record, ['before', 'indication']).filter(
    ({ path }) => !/^before\.(?:allergies|anticoagulants|labs|earlierAttempts)/.test(path),
  );
  // After the case a drug may well be new; one that starts again was there before.
  const again = phrasesIn(record, ['aftercare', 'advice']).filter(({ text }) => startsAgain.test(text));
  const seen = new Set<string>();
  return [...texts, ...again].flatMap(({ words, text, path }) => {
    if (isTurned(words) || words.some(isYear)) return [];
    const found = thinners.find(
      ({ row, words: [word = ''] }) => words.includes(word) && !listed.has(row.name) && !seen.has(row.name),
    );
    if (!found) return [];
    seen.add(found.row.name);
    return [finding('clinical.anticoagulant-unsaid', path, { drug: found.row.name, text })];
  });
}

/** `warfarin in 2019` tells of the past. */
const isYear = (word: string) => /^(?:19|20)\d\d$/.test(word);

const begins = /\b(?:re-?start\w*|resum\w+|go on|again|continue)\b/i;

/** A plan to start a drug again on a day before the case. */
export function restartsBefore({ before, case: head }: CaseRecord): Finding[] {
  const list = before?.anticoagulants;
  return entriesOf(list).flatMap(({ plan }, i) => {
    if (plan === undefined || !begins.test(plan)) return [];
    const [day] = plan.match(/\b(?:19|20)\d\d-\d\d-\d\d\b/) ?? [];
    return day !== undefined && day < head.date
      ? [
          finding('clinical.due-before-case', `before.anticoagulants[${i}].plan`, {
            what: plan,
            date: { when: { text: day, iso: day } },
          }),
        ]
      : [];
  });
}
