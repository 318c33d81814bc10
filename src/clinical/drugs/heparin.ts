import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { conditionsIn } from '../../trade/conditions.js';
import { allergenTable } from '../../trade/drugs/allergens.js';
import { drugsIn } from '../../trade/drugs/table.js';
import { wordsOf } from '../../trade/words.js';
import { conditionNamed } from '../conditions.js';
import { isTurned, type Phrase, phrasesIn } from '../notes.js';
import type { Given } from './given.js';

const HIT = 'heparin-induced thrombocytopenia';

/** How heparin-induced thrombocytopenia stands in the record: a condition, an allergy, or the reaction to heparin. */
export function heparinThrombocytopenia(record: CaseRecord): string | undefined {
  const condition = conditionNamed(record, HIT);
  if (condition !== undefined) return condition;
  const list = record.before?.allergies;
  for (const { to, reaction } of entriesOf(list)) {
    if (allergenTable.find(to.text)?.row.name === HIT || conditionsIn(to.text).includes(HIT)) return to.text;
    if (!isHeparin(to.text) || reaction === undefined) continue;
    const words = wordsOf(reaction);
    const named = ['thrombocytopenia', 'hit', 'hitt'].some(word =>
      wordsOf(word).some(one => words.includes(one)),
    );
    if (named) return `${to.text}: ${reaction}`;
  }
  return undefined;
}

const isHeparin = (text: string): boolean =>
  allergenTable.find(text)?.row.name === 'heparin' ||
  drugsIn(text).some(({ families }) => families.includes('heparin'));

/** Heparin of any kind, heparinised saline and heparin coating, in words. */
const heparinWord = /^(?:heparin|heparini[sz]ed|\p{L}*heparin\p{L}*|\p{L}+parin|lmwh|ufh)$/u;

const names = ({ words }: Phrase) => words.some(word => heparinWord.test(word)) && !isTurned(words);

/** Heparin in any form after heparin-induced thrombocytopenia: given, flushed, locked, coated, prescribed or gone on with. */
export function heparinAfterHit(
  record: CaseRecord,
  given: readonly Given[],
  devices: ReadonlyMap<string, DeviceDetails> = new Map(),
): Finding[] {
  const known = heparinThrombocytopenia(record);
  if (known === undefined) return [];
  const list = record.before?.anticoagulants;
  const before = entriesOf(list).flatMap(({ drug, plan }, index) =>
    isHeparin(drug.text) && !/^\s*(?:stop|do not|none|never)/i.test(plan ?? '')
      ? [{ text: drug.text, path: `before.anticoagulants[${index}]` }]
      : [],
  );
  const used = [...devices.values()]
    .filter(({ entry }) => entry.use !== 'unopened')
    .flatMap(({ key, entry: { material, description } }) =>
      [material, description].flatMap(text =>
        text !== undefined && names({ text, words: wordsOf(text), path: '' })
          ? [{ text, path: `devices.${key}` }]
          : [],
      ),
    );
  const met = [
    ...given
      .filter(({ drug }) => isHeparin(drug.drug.text))
      .map(({ drug, path }) => ({ text: drug.drug.text, path })),
    ...before,
    ...used,
    ...phrasesIn(record, ['events', 'left', 'aftercare', 'advice']).filter(names),
  ];
  const seen = new Set<string>();
  return met.flatMap(({ text, path }) => {
    if (seen.has(path)) return [];
    seen.add(path);
    return [finding('clinical.heparin-after-hit', path, { what: text, known })];
  });
}
