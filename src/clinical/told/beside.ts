import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { toldBefore, toldToReaders } from '../texts.js';
import { type Told, toldTexts } from './texts.js';

/** A text of any part of a record, with the device that its entry is about and whether it tells of before the case. */
export interface Written {
  readonly path: string;
  readonly text: string;
  readonly about?: string | undefined;
  readonly device?: string | undefined;
  readonly access?: string | undefined;
  readonly early: boolean;
}

type Maybe = Omit<Written, 'text' | 'early'> & { readonly text: string | undefined };

/** Every text that may tell a figure of which another place tells too: why, before, how, what stays, what is to be done. */
export function writtenTexts(record: CaseRecord): readonly Written[] {
  const early = [
    ...toldBefore(record),
    ...(record.before?.earlierAttempts ?? []).map(({ result }, i) => ({
      path: `before.earlierAttempts[${i}].result`,
      text: result ?? '',
    })),
  ].map((one): Written => ({ ...one, early: true }));
  const during = toldTexts(record).map(
    ({ path, text, about, event }: Told): Written => ({
      path,
      text,
      about,
      device: event?.device,
      access: event?.access,
      early: false,
    }),
  );
  const beside: Maybe[] = [
    ...(record.access ?? []).map(({ key, closure }, i) => ({
      path: `access[${i}].closure`,
      text: closure,
      access: key,
    })),
    ...(record.events ?? []).map(({ fixedBy, device }, i) => ({
      path: `events[${i}].fixedBy`,
      text: fixedBy,
      device,
    })),
    ...entriesOf(record.left).flatMap(({ device, fixedBy, set }, i) => [
      { path: `left[${i}].fixedBy`, text: fixedBy, device },
      { path: `left[${i}].set`, text: set, device },
    ]),
    ...entriesOf(record.complications).flatMap(({ action, result }, i) => [
      { path: `complications[${i}].action`, text: action },
      { path: `complications[${i}].result`, text: result },
    ]),
    { path: 'outcome.disposition', text: record.outcome?.disposition },
    ...toldToReaders(record).map(({ path, text }) => ({
      path,
      text,
      device: record.aftercare?.[Number(/^aftercare\[(\d+)\]/.exec(path)?.[1] ?? Number.NaN)]?.device,
    })),
  ];
  return [
    ...early,
    ...during,
    ...beside.flatMap(one => (one.text === undefined ? [] : [{ ...one, text: one.text, early: false }])),
  ];
}
