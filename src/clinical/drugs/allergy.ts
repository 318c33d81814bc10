import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import {
  type Allergen,
  allergenTable,
  type CrossReaction,
  crossReactions,
} from '../../trade/drugs/allergens.js';
import { type Drug, drugsAmong, drugsIn } from '../../trade/drugs/table.js';
import { wordsOf } from '../../trade/words.js';
import { contrastOf } from '../kidney/contrast.js';
import { isTurned, phrasesIn } from '../notes.js';
import type { Given } from './given.js';
import { heparinThrombocytopenia } from './heparin.js';
import { unsaidAllergies } from './told.js';

/** Something that the patient must not meet, as it was written, and what it means. */
interface Allergy {
  readonly to: string;
  readonly allergens: readonly Allergen[];
  readonly drugs: readonly Drug[];
}

interface Met {
  readonly name: string;
  readonly path: string;
  readonly drugs: readonly Drug[];
}

/** Allergies that meet a drug, contrast, flush, device or note of the case: itself, its family, or one that may cross-react. */
export function allergies(
  record: CaseRecord,
  given: readonly Given[],
  devices: ReadonlyMap<string, DeviceDetails> = new Map(),
): Finding[] {
  const list = allergiesOf(record);
  if (list.length === 0) return [];
  const met = metIn(record, given);
  return list.flatMap(allergy => [
    ...met.flatMap(({ name, path, drugs }) => drugFinding(allergy, name, path, drugs)),
    ...[...devices.values()].flatMap(device => deviceFinding(allergy, device)),
    ...noteFindings(record, allergy),
    ...adviceFindings(record, allergy),
  ]);
}

function allergiesOf(record: CaseRecord): Allergy[] {
  const list = record.before?.allergies;
  const written = [
    ...entriesOf(list).map(({ to }) => to.text),
    ...unsaidAllergies(record).map(({ to }) => to),
  ];
  // After heparin-induced thrombocytopenia heparin has a finding of its own, wherever it stands.
  return heparinThrombocytopenia(record) === undefined
    ? written.map(read)
    : written.map(read).map(withoutHeparin);
}

const withoutHeparin = ({ to, allergens, drugs }: Allergy): Allergy => ({
  to,
  allergens: allergens.filter(({ families }) => !families.includes('heparin')),
  drugs: drugs.filter(({ families }) => !families.includes('heparin')),
});

/** What an allergy speaks of: the family that it is written as, else the drugs that it names. */
function read(to: string): Allergy {
  const parts = to.split(/[,;/+()]|\band\b|\bor\b/i);
  const whole = allergenTable.find(to);
  const found = whole ? [whole] : parts.flatMap(part => allergenTable.find(part) ?? []);
  const allergens = found.map(({ row }) => row);
  // 'penicillin' is a drug and a family: the family says more.
  return { to, allergens, drugs: whole ? [] : [...drugsIn(to), ...parts.flatMap(drugsIn)] };
}

/** Drugs and contrast given, then agents of events that are not among them (a flush with heparinised saline). */
function metIn(record: CaseRecord, given: readonly Given[]): Met[] {
  const listed: Met[] = [
    ...given.map(({ drug, path }) => ({ name: drug.drug.text, path, drugs: drugsIn(drug.drug.text) })),
    ...contrastOf(record).map(({ given: { agent }, path }) => ({
      name: agent.text,
      path,
      drugs: drugsIn(agent.text),
    })),
  ];
  const known = new Set(listed.flatMap(({ drugs }) => drugs.map(({ name }) => name)));
  const agents = (record.events ?? []).flatMap(({ agent }, index): Met[] => {
    const drugs = agent === undefined ? [] : drugsIn(agent).filter(({ name }) => !known.has(name));
    for (const { name } of drugs) known.add(name);
    return agent !== undefined && drugs.length > 0
      ? [{ name: agent, path: `events[${index}].agent`, drugs }]
      : [];
  });
  return [...listed, ...agents];
}

function drugFinding(allergy: Allergy, given: string, path: string, drugs: readonly Drug[]): Finding[] {
  const same =
    allergy.drugs.some(known => drugs.some(({ name }) => name === known.name)) ||
    allergy.allergens.some(({ families }) =>
      drugs.some(drug => drug.families.some(of => families.includes(of))),
    ) ||
    sameWord(allergy, given, drugs);
  if (same) return [finding('clinical.allergy-given', path, { given, allergy: allergy.to })];
  const cross = crossOf(allergy, drugs);
  return cross
    ? [
        finding(
          'clinical.allergy-cross',
          path,
          { given, allergy: allergy.to, likelihood: message(`likelihood.${cross.likelihood}`) },
          { basis: cross.basis },
        ),
      ]
    : [];
}

function crossOf(allergy: Allergy, drugs: readonly Drug[]): CrossReaction | undefined {
  const from = new Set<string>([
    ...allergy.allergens.flatMap(({ name, families }) => [name, ...families]),
    ...allergy.drugs.flatMap(({ families }) => families),
  ]);
  return crossReactions.find(
    row => from.has(row.from) && drugs.some(({ families }) => families.includes(row.to)),
  );
}

/** For a substance that no table knows: the allergy is written in the very words of what was given. */
function sameWord(allergy: Allergy, given: string, drugs: readonly Drug[]): boolean {
  if (allergy.allergens.length > 0 || allergy.drugs.length > 0 || drugs.length > 0) return false;
  const [a, b] = [wordsOf(allergy.to), wordsOf(given)];
  return a.length > 0 && (a.every(word => b.includes(word)) || b.every(word => a.includes(word)));
}

/** The words of a substance that no table knows: it is met where they all stand. */
function ownWords({ to, allergens, drugs }: Allergy): readonly string[] {
  if (allergens.length > 0 || drugs.length > 0) return [];
  const words = wordsOf(to.replace(/\([^)]*\)/g, ''));
  return words.length <= 3 && words.every(word => word.length >= 4 && !vague.has(word)) ? words : [];
}

/** Words that say nothing of what it is made of. */
const vague = new Set(
  wordsOf(
    'unknown several various some many other food foods seasonal pollen dust drug drugs medication medicine animal animals hay fever',
  ),
);

function deviceFinding(allergy: Allergy, { entry, key, name, row }: DeviceDetails): Finding[] {
  if (entry.use === 'unopened') return [];
  const own = ownWords(allergy);
  const words = wordsOf(`${entry.kind} ${entry.material ?? ''} ${entry.description ?? ''}`);
  if (own.length > 0 && own.every(word => words.includes(word)) && !isTurned(words))
    return [
      finding('clinical.allergy-device', `devices.${key}`, {
        device: name,
        substance: allergy.to,
        allergy: allergy.to,
      }),
    ];
  const said = [entry.material, entry.description].flatMap(text =>
    (text ?? '').split(/[,;:()]|\bwith\b|\band\b/i),
  );
  const phrases = said.map(text => wordsOf(text).join(' ')).filter(text => text !== '');
  const met = allergy.allergens.flatMap(({ kinds, materials, name: substance }): string[] => {
    const material = materials.find(one => phrases.includes(wordsOf(one).join(' ')));
    return material !== undefined ? [material] : row !== undefined && kinds.includes(row) ? [substance] : [];
  });
  return met
    .slice(0, 1)
    .map(substance =>
      finding('clinical.allergy-device', `devices.${key}`, { device: name, substance, allergy: allergy.to }),
    );
}

/** Drugs that readers are told to give or take; one that a phrase warns of is none. */
function adviceFindings(record: CaseRecord, allergy: Allergy): Finding[] {
  const seen = new Set<string>();
  return phrasesIn(record, ['advice', 'aftercare', 'left', 'outcome', 'conclusion']).flatMap(
    ({ text, words, path }) => {
      if (
        seen.has(path) ||
        isTurned(words) ||
        warns.test(text) ||
        (/\bif\b/i.test(text) && !amount.test(text))
      )
        return [];
      const drugs = drugsAmong(text);
      const [found] = drugs.length > 0 ? drugFinding(allergy, text, path, drugs) : [];
      if (!found) return [];
      seen.add(path);
      return [found];
    },
  );
}

/** `500 mg if there is pain` is given all the same. */
const amount = /\d ?(?:mg|g|µg|ug|mL|IU|units?|tablets?|drops|puffs)\b/i;

const warns =
  /\b(?:call|tell|no|not|never|without|despite|because of|allerg\w*|free of|hold no|interact\w*|level)\b/i;

/** Where gloves, skin cleaners, dressings and tapes are written down. */
const places = ['before', 'access', 'sedation', 'events', 'left', 'aftercare', 'advice'] as const;

/** Materials that words of the record name, such as latex gloves; not where they say that it was kept away. */
function noteFindings(record: CaseRecord, allergy: Allergy): Finding[] {
  const own = ownWords(allergy);
  const materials = [
    ...allergy.allergens.flatMap(({ noted }) => noted.map(one => ({ one, words: wordsOf(one) }))),
    ...(own.length > 0 ? [{ one: allergy.to, words: own }] : []),
  ];
  if (materials.length === 0) return [];
  const seen = new Set<string>();
  return phrasesIn(record, places).flatMap(({ text, words, path }) => {
    if (/^before\.(?:allergies|conditions)/.test(path) || seen.has(path) || isTurned(words)) return [];
    const found = materials.find(material => material.words.every(word => words.includes(word)));
    if (!found) return [];
    seen.add(path);
    const params = { device: text, substance: found.one, allergy: allergy.to };
    return [finding('clinical.allergy-device', path, params)];
  });
}
