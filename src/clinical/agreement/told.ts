import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type ComplicationWord, complicationWords } from '../../trade/complication-words.js';
import { areKin, complicationsAdvised, complicationsTold, tells } from '../../trade/complications.js';
import { toldAfter, toldDuring, toldToReaders } from '../texts.js';

/** A complication that a text tells of, and none of those recorded is or is akin to. */
export function checkComplicationsTold(record: CaseRecord): Finding[] {
  if (record.case.status === 'not done') return [];
  const recorded = entriesOf(record.complications).flatMap(({ what, action, result }) => [
    what.text,
    action ?? '',
    result ?? '',
  ]);
  const listed = complicationWords.filter(({ words, reason }) =>
    recorded.some(text => words.test(text) || reason.test(text)),
  );
  const reasons = [
    record.indication.text,
    ...(record.indication.conditions ?? []).map(({ text }) => text),
    record.indication.question ?? '',
    record.case.kind,
    record.case.procedure?.text ?? '',
    record.planned?.text ?? '',
    record.before?.imaging ?? '',
    record.before?.observations ?? '',
    ...(record.before?.conditions ?? []).map(({ text }) => text),
    ...Object.values(record.targets ?? {}).flatMap(({ what, lesion }) => [what.text, lesion?.text ?? '']),
    ...(record.access ?? []).map(({ site }) => site.text),
  ].join('\n');
  const isReason = (word: ComplicationWord) =>
    tells(reasons, word.reason) || listed.some(one => one === word || areKin(one, word));
  const seen = new Set<string>();
  const unsaid = (path: string, text: string, words: readonly ComplicationWord[]) =>
    words.flatMap(word => {
      if (seen.has(word.name) || isReason(word)) return [];
      seen.add(word.name);
      return [finding('clinical.complication-unsaid', path, { text })];
    });
  return [
    ...[...toldDuring(record), ...toldAfter(record)].flatMap(({ path, text }) =>
      unsaid(path, text, complicationsTold(text)),
    ),
    ...toldToReaders(record).flatMap(({ path, text }) => unsaid(path, text, complicationsAdvised(text))),
    ...treated(record),
  ];
}

/** A drug against an allergic reaction, and nothing that tells of one. */
function treated(record: CaseRecord): Finding[] {
  const drugs = entriesOf(record.drugs);
  const i = drugs.findIndex(one => one.for === 'allergic reaction');
  const told =
    drugs.some(({ reaction }) => reaction === true) ||
    entriesOf(record.contrast).some(({ reaction }) => reaction !== undefined) ||
    entriesOf(record.complications).length > 0;
  return i < 0 || told
    ? []
    : [finding('clinical.complication-unsaid', `drugs[${i}].for`, { text: drugs[i]?.drug.text ?? '' })];
}
