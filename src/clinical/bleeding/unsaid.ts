import { type Finding, finding } from '../../findings/finding.js';
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

/** Blood thinners that conditions or words before the case name and the list of anticoagulants has not. */
export function unsaidAnticoagulants(record: CaseRecord): Finding[] {
  const { before } = record;
  const list = before?.anticoagulants;
  const listed = new Set(
    (!list || list === 'none' ? [] : list).flatMap(({ drug }) => drugsIn(drug.text).map(({ name }) => name)),
  );
  const texts = phrasesIn(record, ['before', 'indication']).filter(
    ({ path }) => !/^before\.(?:allergies|anticoagulants|labs|earlierAttempts)/.test(path),
  );
  const seen = new Set<string>();
  return texts.flatMap(({ words, text, path }) => {
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
