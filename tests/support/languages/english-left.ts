import { parse } from 'yaml';
import { assess } from '../../../src/clinical/assess.js';
import type { Assessment } from '../../../src/clinical/assessment.js';
import { timelineSvg } from '../../../src/devices/timeline/svg.js';
import { timelineOf } from '../../../src/devices/timeline/timeline.js';
import { type Language, languageData, textsOf } from '../../../src/findings/languages.js';
import { kinds } from '../../../src/findings/words/en/kinds.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import { wordsOf } from '../../../src/report/check/check.js';
import { audiences } from '../../../src/report/options.js';
import { documentOf } from '../../../src/report/view/document.js';
import { buildView } from '../../../src/report/view/view.js';
import { analytes } from '../../../src/trade/analytes.js';
import { caseKinds } from '../../../src/trade/cases/table.js';
import { deviceKinds, deviceTable } from '../../../src/trade/devices/table.js';
import { allergens } from '../../../src/trade/drugs/allergens.js';
import { drugTable } from '../../../src/trade/drugs/table.js';
import { read } from '../report/assess.js';

export const tokens = (text: string): string[] =>
  text
    .replace(/\{\w+(?::\w+)?\}/g, ' ')
    .toLowerCase()
    .match(/(?<![\p{L}\d])\p{L}{3,}(?![\p{L}\d])/gu) ?? [];

/** Every word that is said in English: the catalogue, remedies included, and the names of the trade tables. */
export const englishWords: ReadonlySet<string> = new Set(
  [
    ...Object.values(textsOf('en-GB')),
    ...[...deviceKinds, ...caseKinds, ...drugTable.rows, ...analytes, ...allergens].flatMap(row => [
      row.name,
      ...row.aliases,
    ]),
  ].flatMap(tokens),
);

/** Words that a record chooses from a list: each has its text in the catalogue, and so is never somebody's own. */
const chosen = new Set(Object.keys(kinds).map(key => key.slice(key.indexOf('.') + 1)));

/** Titles of what a figure rests on are names, and stay as they are. */
const titles = [
  'SIR consensus guideline 2019, table 3',
  'SIR consensus guideline 2019',
  'SIR consensus guideline 2012',
  'ASA practice guideline on preoperative fasting 2017',
  'ASHP, IDSA, SIS and SHEA guideline 2013',
  'SIR 2009 (Stecker et al., JVIR 20:S263) and NCRP Report 168',
  'KDIGO Acute Kidney Injury 2012, table 2',
  'ICRU Report 74',
];

/** A word of the record that every whole language has a name for. */
const named = (text: string) =>
  Object.values(languageData('de').names).some(list => list && Object.hasOwn(list, text.toLowerCase()));

/** Fields whose text may look like a word that is chosen elsewhere. */
const free = new Set(['condition', 'note', 'set', 'description', 'action', 'call', 'approach', 'conditions']);

/** What people typed in fields for text of their own, another name in brackets beside its row, and names of codes. */
function ownTexts(value: unknown, field = ''): string[] {
  if (typeof value === 'string') {
    if (field === 'display') return [value, ` · ${value}`];
    const listed = field === 'kind' ? deviceTable.find(value)?.how === 'listed' : named(value);
    return !free.has(field) && (chosen.has(value) || listed) ? [`(${value})`] : [value];
  }
  if (Array.isArray(value)) return value.flatMap(one => ownTexts(one, field));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) => ownTexts(one, key === 'text' ? field : key));
}

/** Texts as they may stand in a line, with or without a capital, the longest first. */
function formsOf(texts: readonly string[]): readonly string[] {
  const longest = [...new Set(texts.map(text => text.replace(/\s+/g, ' ').trim().replace(/\.$/, '')))].sort(
    (a, b) => b.length - a.length,
  );
  return longest.flatMap(text => {
    const start = text.charAt(0);
    return [...new Set([text, start.toUpperCase() + text.slice(1), start.toLowerCase() + text.slice(1)])];
  });
}

const takenOut = (said: string, forms: readonly string[]): string =>
  forms.reduce((left, form) => (left.includes(form) ? left.replace(whole(form), ' ¤ ') : left), said);

/** A text where it does not stand within a longer word. */
const whole = (text: string) =>
  new RegExp(`(?<![\\p{L}\\d])${text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?![\\p{L}\\d])`, 'gu');

/** The drawing of the timeline in words. */
const drawn = (record: CaseRecord, { devices, tally }: Assessment, language: Language) =>
  timelineSvg(timelineOf(record, devices, tally, language)).replace(/<style[\s\S]*?<\/style>|<[^>]*>/g, ' ');

/** English words that all four reports of a record say in another language, with the lines that they stand in. */
export function englishLeft(text: string, language: Language): ReadonlyMap<string, string> {
  const record = read(text);
  const assessment = assess(record);
  const view = buildView(record, assessment, { language });
  // Readers are told much in the same words.
  const said = new Set([
    ...audiences.flatMap(audience => wordsOf(documentOf(view, { audience }))),
    drawn(record, assessment, language),
  ]);
  const own = formsOf([...ownTexts(parse(text)), ...titles, ...Object.keys(record.devices ?? {})]);
  const written = textsOf(language)['device.written']?.split('{value}') ?? [];
  const left = new Map<string, string>();
  for (const line of said) {
    // A kind as it was typed is quoted.
    if (line.startsWith(written[0] ?? '¤')) continue;
    const rest = takenOut(line.replace(/\s+/g, ' '), own);
    for (const word of tokens(rest))
      if (englishWords.has(word) && !left.has(word)) left.set(word, rest.trim());
  }
  return left;
}
