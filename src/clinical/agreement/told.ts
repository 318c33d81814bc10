import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import {
  areKin,
  type ComplicationWord,
  complicationsTold,
  complicationWords,
  tells,
} from '../../trade/complications.js';

/** Texts that tell what happened; why the case was done and what was before it are no part of it. */
function toldIn(record: CaseRecord): readonly (readonly [path: string, text: string])[] {
  const { outcome, conclusion } = record;
  const pairs: (readonly [string, string | undefined])[] = [
    ...(record.events ?? []).flatMap((event, i): (readonly [string, string | undefined])[] => [
      [`events[${i}].result`, event.result],
      [`events[${i}].note`, event.note],
    ]),
    ...(record.findings ?? []).map(({ text }, i) => [`findings[${i}].text`, text] as const),
    ['outcome.text', outcome?.text],
    ['outcome.condition', outcome?.condition],
    ['conclusion', conclusion],
  ];
  return pairs.flatMap(([path, text]) => (text === undefined ? [] : [[path, text] as const]));
}

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
  ].join('\n');
  const isReason = (word: ComplicationWord) =>
    tells(reasons, word.reason) || listed.some(one => one === word || areKin(one, word));
  const seen = new Set<string>();
  return toldIn(record).flatMap(([path, text]) =>
    complicationsTold(text).flatMap(word => {
      if (seen.has(word.name) || isReason(word)) return [];
      seen.add(word.name);
      return [finding('clinical.complication-unsaid', path, { text })];
    }),
  );
}
