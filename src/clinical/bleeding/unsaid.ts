import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { drugsIn, drugTable } from '../../trade/drugs/table.js';
import { wordsOf } from '../../trade/words.js';
import { drugNamed } from '../named.js';
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
  // A class that is listed without a name (`anticoagulant`, `DOAC`) is said.
  const families = new Set<string>(
    entriesOf(list).flatMap(({ drug: { text } }) => [
      ...drugsIn(text).flatMap(row => row.families),
      ...kinds.filter(kind => kind.listed.test(text)).flatMap(kind => kind.families),
    ]),
  );
  return [...texts, ...again].flatMap(({ words, text, path }) => {
    if (isTurned(words) || (words.some(isYear) && !stillTaken.test(text))) return [];
    const kind = kinds.find(
      one => one.words.test(text) && !one.families.some(family => families.has(family)),
    );
    if (kind && !seen.has(kind.name)) {
      seen.add(kind.name);
      return [finding('clinical.anticoagulant-unsaid', path, { drug: drugNamed(kind.name), text })];
    }
    const found = thinners.find(
      ({ row, words: [word = ''] }) => words.includes(word) && !listed.has(row.name) && !seen.has(row.name),
    );
    if (!found) return [];
    seen.add(found.row.name);
    return [finding('clinical.anticoagulant-unsaid', path, { drug: drugNamed(found.row.name), text })];
  });
}

/** `DVT in 2024, still on warfarin` tells of now. */
const stillTaken = /\b(?:still|since|now|currently|ongoing|lifelong)\b/i;

const takes =
  '(?:on|takes?|taking|took|given|still|under|uses|receiv(?:es|ing)|prescribed|lifelong|long-?term|therapeutic|full[- ]dose|full|regular|his|her|daily)';

/** Blood thinners by their class, without a name. Common practice, no source. */
const kinds: readonly {
  name: string;
  words: RegExp;
  /** In a list of blood thinners the class alone is enough. */
  listed: RegExp;
  families: readonly string[];
}[] = [
  {
    name: 'anticoagulant',
    words: new RegExp(
      `\\b(?:anti-?coagulated|DOACs?|NOACs?|VKAs?|(?:direct|new|novel) oral anticoagulants?|${takes} (?:\\w+ ){0,3}(?:anti-?coagula(?:nts?|tion)|blood[- ]thinn(?:ers?|ing)(?: \\w+)?|vitamin K antagonists?|factor Xa inhibitors?|thinners?))\\b`,
      'i',
    ),
    listed:
      /\b(?:anti-?coagula(?:nts?|tion)|[DN]OACs?|VKAs?|vitamin K antagonists?|blood[- ]thinn(?:ers?|ing))\b/i,
    families: ['anticoagulant', 'heparin', 'antiplatelet'],
  },
  {
    name: 'low molecular weight heparin',
    words: /\b(?:LMWH|low[- ]molecular[- ]weight heparin|heparin (?:infusion|drip|pump|injections?))\b/i,
    listed: /\b(?:LMWH|low[- ]molecular[- ]weight heparin)\b/i,
    families: ['heparin'],
  },
  {
    name: 'antiplatelet',
    words: new RegExp(
      `\\b(?:DAPT|dual[- ]anti-?platelets?(?: \\w+)?|${takes} (?:\\w+ ){0,3}(?:anti-?platelets?|platelet inhibitors?))\\b`,
      'i',
    ),
    listed: /\b(?:DAPT|anti-?platelets?|platelet inhibitors?)\b/i,
    families: ['antiplatelet', 'salicylate'],
  },
];

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
