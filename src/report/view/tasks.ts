import { type AftercareItem, SKIN_REVIEW } from '../../clinical/aftercare/aftercare.js';
import type { WordKey } from '../../findings/languages.js';
import { entriesOf } from '../../record/entries.js';
import type { Term } from '../../record/schema/fields.js';
import type { AftercareEntry, LeftEntry } from '../../record/schema/record.js';
import type { Printer } from '../print/printer.js';
import { absent, fact, facts, section, table } from './blocks.js';
import type { Section, TaskItem, Tasks } from './model.js';
import { dateText, dueText, spanText, termText } from './terms.js';

type By = AftercareEntry['by'];

/** A task with what the record says of it. */
export interface Known {
  readonly item: AftercareItem;
  readonly entry?: AftercareEntry;
  readonly left?: LeftEntry;
}

/** In the order of urgency that the plan has. */
export function known({ record, assessment }: Printer): Known[] {
  const left = entriesOf(record.left);
  return assessment.aftercare.map((item): Known => {
    const index = Number(/\[(\d+)\]$/.exec(item.path)?.[1] ?? '-1');
    const entry = item.source === 'aftercare' ? record.aftercare?.[index] : undefined;
    const place = item.source === 'left' ? left[index] : undefined;
    return { item, ...(entry && { entry }), ...(place && { left: place }) };
  });
}

function whenLines(p: Printer, { item, entry, left }: Known): string[] {
  const term = (key: WordKey, value: Term | undefined, worked: AftercareItem['due']) =>
    value
      ? [p.say(key, { date: termText(p, value, worked) })]
      : worked
        ? [p.say(key, { date: dueText(p, worked) })]
        : [];
  const lines: string[] = [
    ...term('due.earliest', entry?.earliest, item.earliest),
    ...term('due.due', entry?.due ?? left?.until?.date, item.due),
    ...term('due.latest', entry?.latest ?? left?.latest, item.latest),
    ...(item.condition === undefined
      ? []
      : [p.say('due.when', { condition: conditionOf(p, item.condition) })]),
    ...(item.every === undefined
      ? []
      : [
          p.say(
            /^\d/.test(item.every) && !/\b(?:times|x)\b/i.test(item.every) ? 'due.everySpan' : 'due.every',
            { every: spanText(p, item.every) },
          ),
        ]),
    ...(item.start === undefined ? [] : [p.say('due.from', { date: dateText(p, item.start) })]),
    ...howLong(p, item),
  ];
  return lines.length > 0 ? lines : [p.say('due.noTime')];
}

/** `How long: until Friday 15 March 2024, 02:30 (4 hours after the case)`. */
function howLong(p: Printer, { duration, until, start }: AftercareItem): string[] {
  if (duration === undefined) return [];
  const span = spanText(p, duration);
  if (!until) return [p.say('due.for', { duration: span })];
  const date = dateText(p, until.date);
  return [p.say(start === undefined ? 'due.untilFromFirst' : 'due.until', { date, span })];
}

/** What is proposed where the site has no rule of its own is ours to say; all else was written by people. */
function conditionOf(p: Printer, condition: string): string {
  return condition === SKIN_REVIEW.when ? p.say('due.skinReviewWhen') : condition;
}

function whatOf(p: Printer, { item, left }: Known): string {
  if (item.source === 'site' && item.what === SKIN_REVIEW.what) return p.say('due.skinReview');
  if (item.source !== 'left' || item.device === undefined) return p.value(item.what);
  const device = p.piece(item.device, left?.part);
  return p.say(left?.purpose === 'intended' ? 'due.reviewLeft' : 'due.removeLeft', { device });
}

function taskOf(p: Printer, task: Known): TaskItem {
  const { item } = task;
  const about = item.source !== 'left' && item.device !== undefined ? p.device(item.device) : undefined;
  const what = whatOf(p, task);
  return {
    key: item.path,
    what: item.urgent ? p.say('due.urgent', { what }) : what,
    urgent: item.urgent,
    who: isBy(item.by) ? p.say(`by.${item.by}`) : item.by,
    when: whenLines(p, task),
    call: [
      ...item.criteria.map(criterion => criterionText(p, criterion)),
      ...(item.call === undefined ? [] : [p.say('due.call', { call: item.call })]),
      ...(item.ifMissed === undefined ? [] : [p.say('due.ifMissed', { ifMissed: item.ifMissed })]),
      ...(item.policy === undefined ? [] : [p.say('due.policy', { policy: item.policy })]),
      ...(about === undefined ? [] : [p.say('due.device', { device: about })]),
    ],
  };
}

/** The items of a plan in words, in its order. */
export const taskItems = (p: Printer): TaskItem[] => known(p).map(task => taskOf(p, task));

/** Aftercare by the one who does it. The family doctor's tasks are the referrer's to know and pass on. */
export function tasksOf(p: Printer): Tasks {
  const all = known(p).map(task => ({
    by: byOf(task),
    task: taskOf(p, task),
    implied: task.item.source === 'left',
  }));
  const of = (...by: readonly By[]) => all.filter(row => by.includes(row.by)).map(row => row.task);
  const not = (...by: readonly By[]) =>
    all.filter(row => !by.includes(row.by) && !row.implied).map(row => row.task);
  return {
    all: not(),
    referrer: of('referrer', 'family doctor'),
    ward: of('ward'),
    patient: of('patient'),
    others: not('referrer', 'family doctor', 'ward', 'patient'),
    notReferrer: not('referrer', 'family doctor'),
    notWard: not('ward'),
  };
}

/** A site's rule may name someone that the record has no word for. */
export function byOf({ item }: Known): By {
  return isBy(item.by) ? item.by : 'other';
}

function isBy(by: string): by is By {
  return doers.has(by);
}

const doers: ReadonlySet<string> = new Set<By>([
  'ward',
  'referrer',
  'interventional radiology',
  'patient',
  'family doctor',
  'community nurse',
  'other',
]);

/** `If drain output is under 10 mL for 24 hours: may come out`. */
function criterionText(
  p: Printer,
  { measure, is, value, over, action }: AftercareItem['criteria'][number],
): string {
  const limit = value
    ? p.say('criterion.value', { is: p.say(`is.${is}`), value: p.quantity(value) })
    : p.say(`is.${is}`);
  const held = over ? p.say('criterion.over', { is: limit, span: p.quantity(over) }) : limit;
  return p.say('criterion', { measure: p.value(measure), is: held, action });
}

export function aftercareSection(p: Printer): Section {
  const tasks = taskItems(p);
  if (tasks.length === 0)
    return section(p, 'aftercare', [facts(p, undefined, [fact(p, 'aftercare', absent(p))])]);
  return section(p, 'aftercare', [
    table(
      p,
      'section.aftercare',
      ['do', 'who', 'when', 'call'],
      tasks.map(task => ({
        key: task.key,
        cells: [task.what, task.who, task.when, task.call.length > 0 ? task.call : null],
        alert: task.urgent,
      })),
      true,
    ),
  ]);
}
