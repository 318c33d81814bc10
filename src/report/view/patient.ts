import { countedFrom, dueDate } from '../../clinical/aftercare/due-date.js';
import type { DeviceFamily } from '../../devices/types.js';
import { isReviewed, type WordKey } from '../../findings/languages.js';
import type { Coded } from '../../record/schema/fields.js';
import { isArranged, isVisit } from '../../trade/visits.js';
import type { Printer } from '../print/printer.js';
import { titleOf } from './case.js';
import { contact } from './closing.js';
import { foundNotice, patientAllergies } from './found.js';
import { type Inside, insideBy, insideOf, isAlarm } from './inside.js';
import type { PatientItem, PatientView } from './model.js';
import { byOf, type Known, known } from './tasks.js';
import { dateText } from './terms.js';

/** Families that a patient hears of under a name of their own; all others are a small medical device. */
const named = ['stent', 'drain', 'filter', 'embolic', 'tube', 'catheter', 'closure', 'anchor'] as const;
type Named = (typeof named)[number] | 'cement' | 'other';

function familyOf(p: Printer, device: string): Named {
  // It holds a bone and stops no blood.
  if (p.assessment.devices.get(device)?.row === 'cement') return 'cement';
  const family: DeviceFamily | undefined =
    p.assessment.devices.get(device)?.family ?? p.record.devices?.[device]?.family;
  return named.find(name => name === family) ?? 'other';
}

function done(p: Printer): string[] {
  const { status } = p.record.case;
  const sides = new Set(Object.values(p.record.targets ?? {}).flatMap(target => target.side ?? []));
  const [side] = sides.size === 1 ? [...sides] : sides.size > 1 ? (['both'] as const) : [];
  const operator = operatorOf(p);
  const name = p.say('patientDone.name', { title: titleOf(p) });
  if (status === 'not done') return [name, p.say('patientDone.not done'), ...then(p)];
  return [
    name,
    ...(side === undefined ? [] : [p.say(`patientDone.side.${side}`)]),
    ...(operator ? [p.say('patientDone.by', { person: operator })] : []),
    ...(status === 'stopped early' ? [p.say('patientDone.stopped early')] : []),
    ...howItWent(p),
    ...then(p),
    ...problems(p),
  ];
}

/** Who finished: the last operator that an event names, else who answers for the report, else the first operator. */
function operatorOf({ record: { team, events = [], report } }: Printer): string | undefined {
  const operators = team.filter(member => member.role === 'operator');
  const named = (key: string | undefined) => operators.find(member => member.key === key);
  const last = [...events]
    .sort((a, b) => a.at.epoch - b.at.epoch)
    .findLast(event => named(event.by) !== undefined);
  return (named(last?.by) ?? named(report.author) ?? operators[0])?.name;
}

/** A case that was stopped never went well, whatever its outcome is called. */
function howItWent(p: Printer): string[] {
  const { outcome, case: c } = p.record;
  if (!outcome) return [p.say('patientDone.notSaid')];
  const stopped = c.status === 'stopped early' || outcome.followedBy !== undefined;
  return stopped && outcome.overall === 'successful' ? [] : [p.say(`patientDone.${outcome.overall}`)];
}

const then = (p: Printer): string[] => {
  const what = p.record.outcome?.followedBy;
  return what === undefined ? [] : [p.say(`patientThen.${what}`)];
};

function problems(p: Printer): string[] {
  const list = p.record.complications;
  // What could not be found, or was left against intention, is told at the head of the letter.
  if (list === 'none' && (p.record.missing || insideOf(p).some(isAlarm))) return [];
  if (list === undefined) return [p.say('patientProblem.notSaid')];
  return [p.say(list === 'none' ? 'patientProblem.none' : 'patientProblem.some')];
}

/** A part on its own is told of only where it was not meant to be there. */
function insideItems(p: Printer): PatientItem[] {
  return insideOf(p)
    .filter(entry => entry.part === undefined || isAlarm(entry))
    .map(entry => {
      const family = familyOf(p, entry.device);
      const piece = entry.part !== undefined;
      return {
        key: entry.key,
        name: p.say(piece ? 'patientFamily.piece' : `patientFamily.${family}`),
        alert: isAlarm(entry),
        lines: [
          p.say(piece ? 'patientWhat.piece' : `patientWhat.${family}`),
          ...many(p, entry),
          stays(p, entry),
          ...latest(p, entry),
          p.say('patientInside.scan'),
        ],
      };
    });
}

function many(p: Printer, { tally, device }: Inside): string[] {
  // Cement is given in portions.
  if (familyOf(p, device) === 'cement') return [];
  return tally && tally.count > 1 ? [p.say('patientInside.many', { n: String(tally.count) })] : [];
}

function stays(p: Printer, entry: Inside): string {
  if (isAlarm(entry)) return p.say('patientInside.mistake');
  const intended = entry.tally
    ? entry.tally.state === 'in situ intended'
    : entry.left?.purpose === 'intended';
  return p.say(intended ? 'patientInside.stays' : 'patientInside.forTime');
}

const isMeant = (entry: Inside) =>
  entry.tally ? entry.tally.state === 'in situ intended' : entry.left?.purpose === 'intended';

function latest(p: Printer, entry: Inside): string[] {
  const due = entry.left?.latest && dueDate(entry.left.latest, countedFrom(p.record));
  if (!due) return [];
  const key = isAlarm(entry) ? 'seen' : isMeant(entry) ? 'review' : 'latest';
  return [p.say(`patientInside.${key}`, { date: dateText(p, due.date) })];
}

/** What was searched for and not found: never told as left inside. */
function missing(p: Printer): PatientItem[] {
  return (p.record.missing ?? []).map(({ device, part }, index) => ({
    key: `missing[${index}]`,
    name: p.say(part === undefined ? `patientFamily.${familyOf(p, device)}` : 'patientFamily.piece'),
    alert: true,
    lines: [p.say('patientMissing.looked'), p.say('patientMissing.unknown'), p.say('patientMissing.talk')],
  }));
}

function insideNone(p: Printer): string {
  if (insideOf(p).length > 0) return '';
  return p.say(p.record.left === 'none' ? 'patientInside.none' : 'patientInside.notSaid');
}

/** What the record asks of the patient, in the words of who wrote it for the patient. */
function tasks(p: Printer): string[] {
  const own = known(p)
    .filter(task => byOf(task) === 'patient')
    .map(({ item }) => {
      const due = item.due ?? item.latest ?? item.earliest;
      const when = due ? dateText(p, due.date) : (item.every ?? item.condition);
      return when === undefined ? item.what : p.say('patientDo.when', { what: item.what, when });
    });
  const silent = own.length === 0 && advice(p).length === 0;
  return silent ? [p.say('patientDo.none')] : own;
}

const advice = (p: Printer) => p.record.advice?.patient ?? [];

/**
 * Who sees the patient, about what and when. Tasks are written for clinicians, so the patient is told of the device, who
 * and when, and not the task's own words. What is no visit makes no appointment.
 */
function next(p: Printer): string[] {
  const others = known(p).filter(task => byOf(task) !== 'patient');
  const visits = others.filter(
    task => byOf(task) !== 'ward' && isVisit(task.item.what) && (isDated(task) || isInside(p, task)),
  );
  const dated = new Set(visits.filter(isDated).map(({ item }) => item.device));
  const lines = visits.flatMap(task => {
    const { device } = task.item;
    const about = isInside(p, task);
    // A task about a device that has a day beside it says nothing more than that one.
    if (!isDated(task) && about && dated.has(device)) return [];
    const who = p.say(`patientWho.${byOf(task)}`);
    const said =
      about && device !== undefined
        ? p.say('patientNext.about', { who, device: deviceName(p, device) })
        : p.say(isArranged(task.item.what) ? 'patientNext.arranged' : 'patientNext.visit', { who });
    return [[said, ...days(p, task)].join(' ')];
  });
  return [
    ...new Set(lines),
    ...pending(p),
    ...(others.length > visits.length ? [p.say('patientNext.others')] : []),
  ];
}

const isDated = ({ item }: Known) => (item.due ?? item.latest ?? item.earliest) !== undefined;

/** Results that are still to come. */
function pending(p: Printer): string[] {
  const { specimens } = p.record;
  const sent = Array.isArray(specimens) ? specimens : [];
  return sent.flatMap(({ what, sentFor }) =>
    sentFor === undefined
      ? []
      : [p.say('patientNext.pending', { what: p.place(what.text), test: p.value(sentFor) })],
  );
}

const isInside = (p: Printer, { item: { device } }: Known) => device !== undefined && insideBy(p).has(device);

/** `a drain`, in the middle of a sentence: languages that write nouns small start it small. */
function deviceName(p: Printer, device: string): string {
  const whole = insideBy(p)
    .get(device)
    ?.some(entry => entry.part === undefined);
  const word = p.say(whole ? `patientFamily.${familyOf(p, device)}` : 'patientFamily.piece');
  return word.charAt(0).toLocaleLowerCase(p.language) + word.slice(1);
}

function days(p: Printer, { item }: Known): string[] {
  const line = (key: WordKey, date: string | undefined) =>
    date === undefined ? [] : [p.say(key, { date: dateText(p, date) })];
  const lines = [
    ...line('patientNext.due', item.due?.date ?? item.earliest?.date),
    ...line('patientNext.latest', item.latest?.date),
  ];
  return lines.length > 0 ? lines : [p.say('patientNext.when')];
}

function know(p: Printer): string[] {
  const thinners = p.record.before?.anticoagulants;
  return [
    ...patientAllergies(p),
    ...(Array.isArray(thinners) ? thinners.map(thinner => thinnerLine(p, thinner)) : []),
  ];
}

/** As it was decided; what was not decided is for the team to say, before the next dose. */
function thinnerLine(p: Printer, { drug, plan }: { drug: Coded; plan?: string | undefined }): string {
  return plan === undefined
    ? p.say('patientKnow.thinnerNoPlan', { drug: p.drug(drug.text) })
    : p.say('patientKnow.thinnerPlan', { drug: p.drug(drug.text), plan: plan.replace(/\.$/, '') });
}

function help(p: Printer): string[] {
  const draining = insideOf(p).some(({ device }) =>
    ['drain', 'tube', 'catheter'].includes(familyOf(p, device)),
  );
  return [
    p.say('patientHelp.fever'),
    p.say('patientHelp.pain'),
    p.say('patientHelp.bleeding'),
    p.say('patientHelp.skin'),
    p.say('patientHelp.breath'),
    ...(draining ? [p.say('patientHelp.drain')] : []),
  ];
}

function notices(p: Printer): string[] {
  const { status } = p.record.report;
  return [
    ...foundNotice(p, 'patientNotice.allergyFound'),
    ...(status === 'final' ? [] : [p.say(`patientNotice.${status}`)]),
    ...(insideOf(p).some(isAlarm) ? [p.say('patientNotice.left')] : []),
    ...(p.record.missing ? [p.say('patientNotice.missing')] : []),
  ];
}

export function patientView(p: Printer, fallback: string | undefined): PatientView {
  const number = contact(p, fallback);
  return {
    notices: notices(p),
    done: done(p),
    inside: insideItems(p),
    insideNone: insideNone(p),
    missing: missing(p),
    tasks: tasks(p),
    advice: advice(p),
    next: next(p),
    know: know(p),
    help: help(p),
    call: number.said
      ? p.say('patientHelp.call', { contact: number.lines.join(' ').replace(/\.$/, '') })
      : p.say('patientHelp.noNumber'),
    caution: [
      p.say('patientCaution.talk'),
      p.say('patientCaution.days'),
      ...(isReviewed(p.language) ? [] : [p.say('patientCaution.unreviewed')]),
    ],
  };
}
