import { type Finding, finding } from '../../findings/finding.js';
import type { Param } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { toldAfter } from '../texts.js';

const died =
  /\b(?:died(?! (?:off|down|away))|dies(?! (?:off|down|away))|deceased|demise|expired|pronounced dead|(?:death|dead) (?:was )?(?:declared|confirmed|certified|pronounced|in the room|on the table)|(?:declared|certified|confirmed|found) dead|time of death|passed (?:away|on)|life (?:was )?(?:pronounced )?extinct|mors in tabula|exitus(?: letalis)?|RIP|fatal|lethal|did not survive|has not survived|could not be (?:revived|resuscitated|saved)|(?:resuscitation|CPR) (?:was )?(?:stopped|unsuccessful|failed|futile|ceased|called|without success|to no avail)|(?:unsuccessful|failed|futile) (?:resuscitation|CPR)|succumbed|bled to death|exsanguinated|brain[- ]?dead|no signs of life)\b/i;
const denied =
  /\b(?:no|not|never|nobody|without|if|in case|risk of|should|might|may|near|almost|non|father|mother|brother|sister|husband|wife|spouse|partner|son|daughter|uncle|aunt|parents?|grand\w+|twin|friend|dog|donor|batch|label|stock|shelf|device|kit)\b|non-$/i;
/** It was the label that expired, or the beating of somebody else's heart. */
const deniedAfter =
  /\b(?:was (?:feared|averted)|averted|feared|label|stock|on the (?:shelf|box|pack)|in (?:19|20)\d\d|years? ago)\b/i;
/** Words of what is done for one who has died, or for the family. */
const afterDeath =
  /\b(?:coroner|mortuary|morgue|post-?mortem|autopsy|necropsy|death|died|deceased|dead|body|family|relatives|next of kin|bereave\w+|chaplain|leave (?:in|all|the)|left in place|do not remove|stays? in place|police|examiner|inquest|debrief\w*|incident|morbidity|notif\w+|inform|register|funeral|organ donation)\b/i;
const alive =
  /\b(?:well|stable|comfortable|awake|alert|talk\w*|walk\w*|eating|improv\w+|pain \d|moves|oriented|feels)\b/i;

/** The path of what records a death, if anything does. */
function deathIn(record: CaseRecord): { readonly path: string; readonly text: Param } | undefined {
  const when = record.outcome?.died;
  if (when) return { path: 'outcome.died', text: when.moment ? { moment: when.moment } : { when } };
  const list = entriesOf(record.complications);
  const harmed = list.findIndex(({ harm }) => harm === 'death');
  if (harmed >= 0) return { path: `complications[${harmed}].harm`, text: list[harmed]?.what.text ?? '' };
  const events = (record.events ?? []).flatMap(({ result, note }, i) => [
    { path: `events[${i}].result`, text: result ?? '' },
    { path: `events[${i}].note`, text: note ?? '' },
  ]);
  const complications = list.flatMap(({ what, result }, i) => [
    { path: `complications[${i}].what`, text: what.text },
    { path: `complications[${i}].result`, text: result ?? '' },
  ]);
  for (const { path, text } of [...toldAfter(record), ...complications, ...events])
    for (const clause of text.split(/[;.]\s|[;,]|\bbut\b/)) {
      const found = died.exec(clause);
      if (!found) continue;
      const rest = clause.slice(found.index + found[0].length);
      if (!denied.test(clause.slice(0, found.index)) && !deniedAfter.test(rest))
        return { path, text: clause.trim() };
    }
  return undefined;
}

/**
 * A death, wherever it is recorded, against what is told of a living patient. One death is one finding, which names every
 * such place; those of the single places follow from it.
 */
export function checkDeath(record: CaseRecord): Finding[] {
  const dead = deathIn(record);
  if (!dead) return [];
  const at = timeOfDeath(record, dead.text);
  const places = [...livingIn(record, dead.path), ...afterwards(record, at)];
  const differs = (path: string, told: readonly string[]) =>
    finding('clinical.death-differs', path, { told: { list: told }, place: dead.path, death: dead.text });
  const said = places.map(({ path, text }) => `${path} ('${text}')`);
  const { overall } = record.outcome ?? {};
  const outcome =
    overall === 'successful' && isInCase(record, at)
      ? [
          finding('clinical.outcome-differs', 'outcome.overall', {
            overall: { term: 'success', value: overall },
            other: dead.text,
            place: dead.path,
          }),
        ]
      : [];
  const [first, ...more] = places;
  if (!first) return outcome;
  const head = differs(first.path, said);
  const follows = { code: head.code, path: head.path };
  const rest = [...outcome, ...more.map(({ path }, i) => differs(path, said.slice(i + 1, i + 2)))];
  return [head, ...rest.map(found => ({ ...found, follows }))];
}

interface Place {
  readonly path: string;
  readonly text: string;
}

/** What the record tells of a living patient. */
function livingIn(record: CaseRecord, told: string): Place[] {
  const { condition, disposition } = record.outcome ?? {};
  const places: Place[] = [];
  const add = (path: string, text: string) => void places.push({ path, text });
  if (disposition !== undefined && !afterDeath.test(disposition) && told !== 'outcome.disposition')
    add('outcome.disposition', disposition);
  if (condition !== undefined && alive.test(condition) && !afterDeath.test(condition))
    add('outcome.condition', condition);
  record.aftercare?.forEach((item, i) => {
    if (item.by === 'patient' || !afterDeath.test(`${item.do} ${item.when ?? ''} ${item.call ?? ''}`))
      add(`aftercare[${i}].do`, item.do);
  });
  const advice = record.advice?.patient?.[0];
  if (advice !== undefined) add('advice.patient', advice);
  record.advice?.ward?.forEach((text, i) => {
    if (!afterDeath.test(text)) add(`advice.ward[${i}]`, text);
  });
  return places;
}

/** What is recorded as if nobody had died: a drug given later, a harm that is less, a case that went to its end. */
function afterwards(record: CaseRecord, at: number | undefined): Place[] {
  const late = entriesOf(record.drugs).findIndex(drug => at !== undefined && drug.at.epoch > at);
  const drug = entriesOf(record.drugs)[late];
  const harms = entriesOf(record.complications).flatMap(({ harm, result }, i): Place[] =>
    harm !== undefined && harm !== 'death' && /\b(?:death|died)\b/i.test(result ?? '')
      ? [{ path: `complications[${i}].harm`, text: harm }]
      : [],
  );
  const { status } = record.case;
  const ended = status === 'completed' && record.outcome?.overall === 'unsuccessful' && isInCase(record, at);
  return [
    ...(drug ? [{ path: `drugs[${late}].at`, text: `${drug.drug.text} ${drug.at.clock}` }] : []),
    ...harms,
    ...(ended ? [{ path: 'case.status', text: status }] : []),
  ];
}

/** Milliseconds since 1970: as recorded, or at the clock time in the words that tell of the death. */
function timeOfDeath({ outcome, events }: CaseRecord, text: Param): number | undefined {
  const clock = typeof text === 'string' ? /\b[0-2]?\d:[0-5]\d\b/.exec(text)?.[0] : undefined;
  return outcome?.died?.moment?.epoch ?? (events ?? []).find(({ at }) => at.clock === clock)?.at.epoch;
}

/** Whether the patient died before the case was over. A death afterwards takes nothing from what was done. */
function isInCase({ case: { ended } }: CaseRecord, at: number | undefined): boolean {
  return at !== undefined && ended !== undefined && at <= ended.epoch;
}
