import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import { convert } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { drugsAmong } from '../../trade/drugs/table.js';
import { comesOut } from '../../trade/removal.js';
import { wordsOf } from '../../trade/words.js';
import { countedFrom, dueDate, isAfter } from '../aftercare/due-date.js';
import { isTurned } from '../notes.js';
import { type Range, refused, within } from '../plausible.js';
import { toldToReaders } from '../texts.js';
import { differs } from './plan.js';

/** What is to be done against itself: limits, conditions and days that cannot all be meant. Common practice, no source. */
export function checkCare(record: CaseRecord): Finding[] {
  return [
    ...calledWithinLimit(record),
    ...turnedRound(record),
    ...limitsApart(record),
    ...homeTooSoon(record),
    ...stayTooLong(record),
    ...doneWhenOut(record),
    ...temperatures(record),
    ...forbidden(record),
  ];
}

const tasks = (record: CaseRecord) =>
  (record.aftercare ?? []).map((item, i) => ({ item, path: `aftercare[${i}]` }));

const under = /\b(?:under|below|less than)\s+(\d+(?:\.\d+)?)/i;
const over = /\b(?:over|above|more than)\s+(\d+(?:\.\d+)?)/i;
const kept = /\b(?:keep|kept|hold|held|maintain\w*|stays?)\b/i;

/** 'Keep the pressure under 140', and the call goes out under 140: it would go out all the time. */
function calledWithinLimit(record: CaseRecord): Finding[] {
  return tasks(record).flatMap(({ item: { do: task, call }, path }) => {
    if (call === undefined || !kept.test(task)) return [];
    const wrong = [under, over].some(limit => {
      const [, wanted] = limit.exec(task) ?? [];
      return wanted !== undefined && limit.exec(call)?.[1] === wanted;
    });
    return wrong ? [differs(`${path}.call`, call, `${path}.do`, task)] : [];
  });
}

/** What comes by way of a drain; urine that runs the natural way is wanted. */
const output = /^(?!.*\burin).*\b(?:output|drainage|drains?|volume|secretion)\b/i;
const outWords =
  /\b(?:(?:may|can|to|is to|should) (?:come out|be (?:removed|taken out|pulled))|comes? out|remove|take (?:\w+ ){0,4}out|pull)\b/i;
const turning = /\b(?:no|not|never|stays?|leave|do not|instead|unless)\b/i;

/** A drain comes out when it brings little, not when it brings much. */
function turnedRound(record: CaseRecord): Finding[] {
  return tasks(record).flatMap(({ item, path }) =>
    (item.criteria ?? []).flatMap(({ measure, is, value, action }, i) =>
      (is === 'over' || is === 'at least') &&
      value !== undefined &&
      output.test(measure) &&
      outWords.test(action ?? '') &&
      !turning.test(action ?? '')
        ? [
            differs(
              `${path}.criteria[${i}].is`,
              `${measure} ${is}`,
              `${path}.criteria[${i}].action`,
              action ?? '',
            ),
          ]
        : [],
    ),
  );
}

interface Limit {
  readonly path: string;
  readonly text: string;
  /** mL a day. */
  readonly daily: number;
}

const dailyLimit = /\b(?:under|below|less than|<) ?(\d+(?:\.\d+)?) ?mL\b/i;

/** The output under which one and the same drain comes out is told twice, and the figures are far from one another. */
function limitsApart(record: CaseRecord): Finding[] {
  if (entriesOf(record.left).filter(({ purpose }) => purpose === 'temporary').length > 1) return [];
  const criteria = tasks(record).flatMap(({ item, path }) =>
    (item.criteria ?? []).flatMap(({ measure, is, value, action }, i): Limit[] => {
      const amount = value && convert(value, 'mL');
      return (is === 'under' || is === 'at most') &&
        amount &&
        output.test(measure) &&
        outWords.test(action ?? '')
        ? [
            {
              path: `${path}.criteria[${i}].value`,
              text: `${measure} ${is} ${amount} mL`,
              daily: amount.toNumber(),
            },
          ]
        : [];
    }),
  );
  const told = [
    ...entriesOf(record.left).flatMap(({ until }, i) =>
      until?.condition === undefined ? [] : [{ path: `left[${i}].until`, text: until.condition }],
    ),
    ...toldToReaders(record).filter(({ text }) =>
      /\b(?:drain|catheter|tube|stays?|comes? out)\b/i.test(text),
    ),
  ].flatMap(({ path, text }): Limit[] => {
    const [, amount] = dailyLimit.exec(text) ?? [];
    return amount === undefined || /\b(?:call|ring|tell)\b/i.test(text)
      ? []
      : [{ path, text, daily: Number(amount) }];
  });
  const [first] = criteria;
  const other =
    first && told.find(({ daily }) => Math.max(daily, first.daily) >= 5 * Math.min(daily, first.daily));
  return first && other ? [differs(first.path, first.text, other.path, other.text)] : [];
}

const home = /^(?:\w+ )?(?:discharged? )?home\b/i;
const later =
  /\b(?:tomorrow|next|after|later|if|when|once|on (?:mon|tues|wednes|thurs|fri|satur|sun)day|day)\b/i;
/** Hours of watching on a ward that nobody who goes home the same day has. */
const LONG = 12;

/** Sent home, and the ward is to watch for half a day or longer. */
function homeTooSoon(record: CaseRecord): Finding[] {
  const disposition = record.outcome?.disposition ?? '';
  if (!home.test(disposition) || later.test(disposition)) return [];
  const watch = tasks(record).find(({ item }) => {
    const hours = item.for === undefined ? 0 : spanHours(item.for);
    return item.by === 'ward' && hours >= LONG;
  });
  return watch
    ? [
        differs(
          'outcome.disposition',
          disposition,
          `${watch.path}.for`,
          `${watch.item.do}, ${watch.item.for}`,
        ),
      ]
    : [];
}

function spanHours(text: string): number {
  const [, number = '', unit = ''] = /^(\d+(?:\.\d+)?) ?(h|hours?|days?|d)\b/i.exec(text) ?? [];
  return Number(number) * (/^d/i.test(unit) ? 24 : 1);
}

/** What stays until a day that is later than the last on which it may be there. */
function stayTooLong(record: CaseRecord): Finding[] {
  const from = countedFrom(record);
  return entriesOf(record.left).flatMap(({ until, latest }, i) => {
    const [end, last] = [until?.date, latest].map(term => term && dueDate(term, from)?.date);
    return end !== undefined && last !== undefined && isAfter(end, last)
      ? [differs(`left[${i}].until`, until?.date?.text ?? end, `left[${i}].latest`, latest?.text ?? last)]
      : [];
  });
}

const needsInside =
  /\b(?:flush\w*|scleros\w+|sclerotherapy|instil\w*|inject\w*|washout|irrigat\w*|cap|clamp|unclamp|deflat\w*|aspirat\w*|feed\w*)\b/i;

/** Something is done through a device after the day on which it is to come out. */
function doneWhenOut(record: CaseRecord): Finding[] {
  const from = countedFrom(record);
  const dated = tasks(record).map(one => ({
    ...one,
    date: one.item.due && dueDate(one.item.due, from)?.date,
  }));
  return dated.flatMap(({ item, path, date }) => {
    if (item.device === undefined || date === undefined || !needsInside.test(item.do) || comesOut(item.do))
      return [];
    const out = dated.find(
      one =>
        one.item.device === item.device &&
        one.path !== path &&
        one.date !== undefined &&
        isRemoval(one.item.do) &&
        isAfter(date, one.date),
    );
    return out
      ? [differs(`${path}.due`, `${item.do}, ${item.due?.text ?? date}`, `${out.path}.due`, out.item.do)]
      : [];
  });
}

/** Taking out for good; an exchange leaves something to flush. */
const isRemoval = (task: string) => comesOut(task) && !/^(?:change|exchange|replace)\b/i.test(task);

const bans =
  /^(?:no|hold|withhold|avoid|do not (?:give|take|start|restart)|not to (?:have|take|get)|never) /i;
const thins = new Set(['anticoagulant', 'antiplatelet', 'heparin']);

/** A drug that readers are told not to give, and that the plan gives. */
function forbidden(record: CaseRecord): Finding[] {
  const banned = toldToReaders(record)
    .filter(({ path }) => path.startsWith('advice'))
    .flatMap(({ path, text }) =>
      text
        .split(/[.;,]\s|;/)
        .flatMap(clause =>
          bans.test(clause.trim())
            ? drugsAmong(clause).map(drug => ({ drug, path, clause: clause.trim() }))
            : [],
        ),
    );
  return tasks(record).flatMap(({ item: { do: task }, path }) => {
    if (
      !/\d ?(?:mg|g|IU|units?|mL|µg|ug)\b|^(?:give|start|restart|take)\b/i.test(task) ||
      isTurned(wordsOf(task))
    )
      return [];
    const given = drugsAmong(task).map(({ name }) => name);
    const [ban] = banned.filter(({ drug }) => given.includes(drug.name));
    if (!ban) return [];
    const { name: drug, families } = ban.drug;
    const params = { drug, text: task, other: ban.clause, place: ban.path };
    return families.some(family => thins.has(family))
      ? [finding('clinical.anticoagulant-differs', `${path}.do`, params)]
      : [differs(`${path}.do`, task, ban.path, ban.clause)];
  });
}

/** Of a person or a room, in either unit. */
const BODY: readonly Range[] = [
  { unit: 'Cel', least: '30', most: '45' },
  { unit: '[degF]', least: '86', most: '113' },
];

/** A limit of temperature in the other unit than its number. */
function temperatures(record: CaseRecord): Finding[] {
  return tasks(record).flatMap(({ item, path }) =>
    (item.criteria ?? []).flatMap(({ measure, value }, i) =>
      /\b(?:temperature|fever)\b/i.test(measure) && value && within(value, BODY) === false
        ? [refused(measure, value, BODY, `${path}.criteria[${i}].value`)]
        : [],
    ),
  );
}
