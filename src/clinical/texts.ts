import type { CaseRecord } from '../record/schema/record.js';

/** A text in its writer's own words. */
export interface Told {
  readonly path: string;
  readonly text: string;
}

type Maybe = readonly (readonly [path: string, text: string | undefined])[];

const present = (pairs: Maybe): readonly Told[] =>
  pairs.flatMap(([path, text]) => (text === undefined ? [] : [{ path, text }]));

/** What was known or said before the case, and why it is done. */
export function toldBefore({ indication, before }: CaseRecord): readonly Told[] {
  return present([
    ['indication.text', indication.text],
    ['indication.question', indication.question],
    ['before.observations', before?.observations],
    ['before.imaging', before?.imaging],
    ['before.consent.note', before?.consent?.note],
    ['before.checklist.note', before?.checklist?.note],
    ['before.fasting.note', before?.fasting?.note],
  ]);
}

/** Conditions of the request and of the patient. */
export function conditionsTold({ indication, before }: CaseRecord): readonly Told[] {
  return present([
    ...(indication.conditions ?? []).map(({ text }, i) => [`indication.conditions[${i}]`, text] as const),
    ...(before?.conditions ?? []).map(({ text }, i) => [`before.conditions[${i}]`, text] as const),
  ]);
}

/** What is told of the case while it went on. */
export function toldDuring(record: CaseRecord): readonly Told[] {
  const { sedation, radiation } = record;
  return present([
    ...(record.events ?? []).flatMap(
      (event, i): Maybe => [
        [`events[${i}].result`, event.result],
        [`events[${i}].note`, event.note],
      ],
    ),
    ...(record.findings ?? []).map(({ text }, i) => [`findings[${i}].text`, text] as const),
    ...(record.access ?? []).map(({ closure }, i) => [`access[${i}].closure`, closure] as const),
    ...Object.entries(record.targets ?? {}).map(([key, { note }]) => [`targets.${key}.note`, note] as const),
    ...Object.entries(record.devices ?? {}).map(([key, { note }]) => [`devices.${key}.note`, note] as const),
    ...(record.images ?? []).map(({ description }, i) => [`images[${i}].description`, description] as const),
    ['sedation.note', sedation === undefined || sedation === 'none' ? undefined : sedation.note],
    ['radiation.note', radiation === undefined || radiation === 'none' ? undefined : radiation.note],
  ]);
}

/** What came of it. */
export function toldAfter({ outcome, conclusion }: CaseRecord): readonly Told[] {
  return present([
    ['outcome.text', outcome?.text],
    ['outcome.condition', outcome?.condition],
    ['outcome.disposition', outcome?.disposition],
    ['conclusion', conclusion],
  ]);
}

/** What is to be done, and what readers are told. */
export function toldToReaders({ aftercare, advice }: CaseRecord): readonly Told[] {
  const lists = (['ward', 'referrer', 'patient'] as const).flatMap(
    (reader): Maybe => (advice?.[reader] ?? []).map((text, i) => [`advice.${reader}[${i}]`, text] as const),
  );
  return present([
    ...(aftercare ?? []).map(({ do: task }, i) => [`aftercare[${i}].do`, task] as const),
    ...lists,
  ]);
}
