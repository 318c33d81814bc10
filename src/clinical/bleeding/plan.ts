import { Temporal } from 'temporal-polyfill';
import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Drug, drugsIn } from '../../trade/drugs/table.js';
import { wordsOf } from '../../trade/words.js';
import { countedFrom, dueDate } from '../aftercare/due-date.js';
import { type DaySpan, daysTold } from '../day-words.js';
import { toldAfter, toldBefore, toldToReaders } from '../texts.js';

type Action = 'goes on' | 'restarts' | 'stops';

/** What one place says of a drug. */
interface Said {
  readonly path: string;
  readonly text: string;
  readonly action: Action;
  readonly days?: DaySpan | undefined;
}

const goesOn =
  /\b(?:do(?:es)? not (?:stop|hold|pause|omit|skip|interrupt)|not (?:to be )?(?:stopped|held|paused|interrupted)|never stop|continue[sd]?|continuing|go(?:es)? on|carry on|carries on|keep (?:on )?(?:taking|giving)|keep (?:him |her |the patient )?on|uninterrupted|without (?:a )?(?:break|pause|gap|interruption)|as (?:usual|normal|before)|stays? on|remains? on)\b/i;
const stops =
  /\b(?:stop(?:s|ped)?(?! at\b)|never (?:take|restart|give)|(?:do not|don't|not to|no longer|must not) (?:be )?(?:tak\w+|restart\w*|resum\w+|give\w*|start\w*|have)|discontinue[sd]?|no more|for good off|off for good|come off|permanently off|cease[sd]?)\b/i;
const holds =
  /\b(?:hold|withhold|held|withheld|pause[sd]?|omit(?:ted)?|skip|leave off|leave out|keep off|stay off|stop(?:ped)?|no|without)\b/i;
const restarts =
  /\b(?:again|re-?start\w*|resum\w+|re-?commence\w*|re-?introduc\w+|start\w*|back on|go back|begin\w*|take[ns]?|give[ns]?|reload\w*|next dose|first dose|from)\b/i;
const iffy = /\b(?:if|when|unless|in case|should)\b/i;

/** What a text says of a drug that it names; undefined where it says neither. */
function actionIn(text: string, caseDate: string): Pick<Said, 'action' | 'days'> | undefined {
  const days = daysTold(text, caseDate);
  if (goesOn.test(text)) return { action: 'goes on' };
  if (days && /\b(?:until|till|for)\b/i.test(text) && holds.test(text)) return { action: 'restarts', days };
  if (stops.test(text) && !iffy.test(text.slice(0, stops.exec(text)?.index)))
    return /\brestart|\bresum|\bagain\b(?!.*\bnever)/i.test(text) &&
      days &&
      !/\b(?:not|never|n't)\b/i.test(text)
      ? { action: 'restarts', days }
      : { action: 'stops' };
  return restarts.test(text) ? { action: 'restarts', days } : undefined;
}

const generic =
  /\b(?:blood[- ]thinn(?:er|ers|ing)(?: \w+)?|anti-?coagula(?:nt|nts|tion)|DOACs?|NOACs?|anti-?platelets?|thinners?)\b/i;

/** Whether a clause speaks of the drug: by one of its names, or by its kind where only one is listed. */
function namer(drug: string, alone: boolean): (clause: string) => boolean {
  const rows: readonly Drug[] = drugsIn(drug);
  const names = rows.flatMap(row => [row.name, ...row.aliases]).map(name => wordsOf(name));
  return clause => {
    const words = wordsOf(clause);
    return (
      names.some(name => name.length > 0 && name.every(word => words.includes(word))) ||
      (alone && generic.test(clause))
    );
  };
}

const clausesOf = (text: string) =>
  text
    .split(/[.;]\s+|;|,\s+|\bbut\b|\n/)
    .map(clause => clause.trim())
    .filter(clause => clause !== '');

/** Texts that restart, stop or go on with a blood thinner otherwise than its plan, or than the first that says so. */
export function anticoagulantPlans(record: CaseRecord): Finding[] {
  const list = entriesOf(record.before?.anticoagulants);
  return list.flatMap(({ drug, plan, lastDose }, i) => {
    const names = namer(drug.text, list.length === 1);
    const path = `before.anticoagulants[${i}]`;
    const planned = plan === undefined ? undefined : actionIn(plan, record.case.date);
    const first: Said[] =
      plan !== undefined && planned ? [{ path: `${path}.plan`, text: plan, ...planned }] : [];
    const all = [...first, ...toldOf(record, names)];
    const [reference] = all;
    const other = reference && all.slice(1).find(said => apart(reference, said));
    return [
      ...(reference && other
        ? [
            finding('clinical.anticoagulant-differs', other.path, {
              drug: drug.text,
              text: other.text,
              other: reference.text,
              place: reference.path,
            }),
          ]
        : []),
      ...lastTaken(record, drug.text, names, lastDose?.iso, `${path}.lastDose`),
    ];
  });
}

function toldOf(record: CaseRecord, names: (clause: string) => boolean): Said[] {
  const from = countedFrom(record);
  const day = Temporal.PlainDate.from(record.case.date);
  return [...toldToReaders(record), ...toldAfter(record)].flatMap(({ path, text }) => {
    const item = record.aftercare?.[Number(/^aftercare\[(\d+)\]/.exec(path)?.[1] ?? Number.NaN)];
    return clausesOf(text).flatMap((clause): Said[] => {
      const said = names(clause) ? actionIn(clause, record.case.date) : undefined;
      if (!said) return [];
      const terms = [item?.earliest, item?.due, item?.latest].flatMap(term => {
        const date = term && dueDate(term, from)?.date;
        return date === undefined || date.length < 10
          ? []
          : [day.until(Temporal.PlainDate.from(date.slice(0, 10)), { largestUnit: 'days' }).days];
      });
      const days = terms.length > 0 ? { from: Math.min(...terms), to: Math.max(...terms) } : said.days;
      return [{ path, text: clause, action: said.action, days }];
    });
  });
}

function apart(a: Said, b: Said): boolean {
  if (a.action === 'restarts' && b.action === 'restarts')
    return (
      a.days !== undefined && b.days !== undefined && (a.days.from > b.days.to || b.days.from > a.days.to)
    );
  if (a.action === b.action) return false;
  const [again, other] = a.action === 'restarts' ? [a, b] : [b, a];
  if (again.action !== 'restarts') return true;
  // 'Take it' goes on as well as it begins; only a later day says that there is a gap.
  return other.action === 'stops' || (again.days?.from ?? 0) > 0;
}

const taken = /\b(?:took|taken|last|had|swallowed|injected)\b/i;
const still =
  /\b(?:not stopped|never stopped|still (?:taking|takes|on|being given)|did not stop|forgot to stop|was not held|not held)\b/i;
const yesterday = /\b(?:yesterday|last night|the (?:evening|night|day) before)\b/i;
const ago = /\b(\d{1,2}|one|two|three|four|five|six|seven|ten) (day|week)s? ago\b/i;
const figures: readonly string[] = ['', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', '', '', 'ten'];

/** The last dose as texts before the case tell it. */
function lastTaken(
  record: CaseRecord,
  drug: string,
  names: (clause: string) => boolean,
  lastDose: string | undefined,
  place: string,
): Finding[] {
  if (lastDose === undefined || lastDose.length < 10) return [];
  const day = Temporal.PlainDate.from(record.case.date);
  const recorded = day.until(Temporal.PlainDate.from(lastDose.slice(0, 10)), { largestUnit: 'days' }).days;
  for (const { path, text } of toldBefore(record))
    for (const clause of text.split(/[.;]\s+|;/)) {
      if (!names(clause)) continue;
      const days = taken.test(clause) ? pastDays(clause, record.case.date) : undefined;
      const differs = days === undefined ? still.test(clause) && recorded < -1 : days !== recorded;
      if (differs)
        return [
          finding('clinical.anticoagulant-differs', path, { drug, text: clause, other: lastDose, place }),
        ];
    }
  return [];
}

function pastDays(text: string, caseDate: string): number | undefined {
  if (yesterday.test(text)) return -1;
  const [, number = '', unit = ''] = ago.exec(text) ?? [];
  if (unit !== '') {
    const count = figures.includes(number.toLowerCase())
      ? figures.indexOf(number.toLowerCase())
      : Number(number);
    return -count * (/^w/i.test(unit) ? 7 : 1);
  }
  const days = daysTold(text, caseDate);
  return days && days.to <= 0 ? days.from : undefined;
}
