import { dueDate } from '../../clinical/aftercare/due-date.js';
import type { DeviceFamily } from '../../devices/types.js';
import type { WordKey } from '../../findings/languages.js';
import type { Printer } from '../print/printer.js';
import { titleOf } from './case.js';
import { contact } from './closing.js';
import { foundNotice, patientAllergies } from './found.js';
import { type Inside, insideOf, isAlarm } from './inside.js';
import type { PatientItem, PatientView } from './model.js';
import { byOf, type Known, known } from './tasks.js';

/** Families that a patient hears of under a name of their own; all others are a small medical device. */
const named = ['stent', 'drain', 'filter', 'embolic', 'tube', 'catheter', 'closure', 'anchor'] as const;
type Named = (typeof named)[number] | 'other';

function familyOf(p: Printer, device: string): Named {
  const family: DeviceFamily | undefined =
    p.assessment.devices.get(device)?.family ?? p.record.devices?.[device]?.family;
  return named.find(name => name === family) ?? 'other';
}

function done(p: Printer): string[] {
  const { status } = p.record.case;
  const sides = new Set(Object.values(p.record.targets ?? {}).flatMap(target => target.side ?? []));
  const [side] = sides.size === 1 ? [...sides] : sides.size > 1 ? (['both'] as const) : [];
  const { outcome } = p.record;
  const operator = p.record.team.find(member => member.role === 'operator');
  const name = p.say('patientDone.name', { title: titleOf(p) });
  if (status === 'not done') return [name, p.say('patientDone.not done')];
  return [
    name,
    ...(side === undefined ? [] : [p.say(`patientDone.side.${side}`)]),
    ...(operator ? [p.say('patientDone.by', { person: operator.name })] : []),
    ...(status === 'stopped early' ? [p.say('patientDone.stopped early')] : []),
    p.say(outcome ? `patientDone.${outcome.overall}` : 'patientDone.notSaid'),
    problems(p),
  ];
}

function problems(p: Printer): string {
  const list = p.record.complications;
  if (list === undefined) return p.say('patientProblem.notSaid');
  return p.say(list === 'none' ? 'patientProblem.none' : 'patientProblem.some');
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

function many(p: Printer, { tally }: Inside): string[] {
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
  const due = entry.left?.latest && dueDate(entry.left.latest, p.record.case.date);
  if (!due) return [];
  const key = isAlarm(entry) ? 'seen' : isMeant(entry) ? 'review' : 'latest';
  return [p.say(`patientInside.${key}`, { date: p.date(due.date) })];
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
      const when = due ? p.date(due.date) : (item.every ?? item.condition);
      return when === undefined ? item.what : p.say('patientDo.when', { what: item.what, when });
    });
  const silent = own.length === 0 && advice(p).length === 0;
  return silent ? [p.say('patientDo.none')] : own;
}

const advice = (p: Printer) => p.record.advice?.patient ?? [];

/**
 * Who sees the patient about what stays, and when. Tasks are written for clinicians, so the patient is told
 * of the device, who and when, once for each device, and not the task's own words.
 */
function next(p: Printer): string[] {
  const others = known(p).filter(task => byOf(task) !== 'patient');
  const visits = others.filter(task => byOf(task) !== 'ward' && isInside(p, task));
  const devices = [...new Set(visits.map(task => task.item.device ?? ''))];
  const lines = devices.map(device => {
    const mine = visits.filter(task => task.item.device === device);
    const first = mine.find(task => task.item.due) ?? mine[0];
    if (!first) return '';
    const who = p.say(`patientWho.${byOf(first)}`);
    return [p.say('patientNext.about', { who, device: deviceName(p, device) }), ...days(p, first)].join(' ');
  });
  return [...new Set(lines), ...(others.length > visits.length ? [p.say('patientNext.others')] : [])];
}

const isInside = (p: Printer, { item }: Known) => insideOf(p).some(entry => entry.device === item.device);

/** `a drain`, in the middle of a sentence: languages that write nouns small start it small. */
function deviceName(p: Printer, device: string): string {
  const whole = insideOf(p).some(entry => entry.device === device && entry.part === undefined);
  const word = p.say(whole ? `patientFamily.${familyOf(p, device)}` : 'patientFamily.piece');
  return word.charAt(0).toLocaleLowerCase(p.language) + word.slice(1);
}

function days(p: Printer, { item }: Known): string[] {
  const line = (key: WordKey, date: string | undefined) =>
    date === undefined ? [] : [p.say(key, { date: p.date(date) })];
  const lines = [
    ...line('patientNext.due', item.due?.date ?? item.earliest?.date),
    ...line('patientNext.latest', item.latest?.date),
  ];
  return lines.length > 0 ? lines : [p.say('patientNext.when')];
}

function know(p: Printer): string[] {
  const thinners = p.record.before?.anticoagulants;
  return [...patientAllergies(p), ...(Array.isArray(thinners) ? [p.say('patientKnow.thinners')] : [])];
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
  ];
}

export function patientView(p: Printer, fallback: string | undefined): PatientView {
  const number = contact(p, fallback);
  return {
    notices: notices(p),
    done: done(p),
    inside: insideItems(p),
    insideNone: insideNone(p),
    tasks: tasks(p),
    advice: advice(p),
    next: next(p),
    know: know(p),
    help: help(p),
    call: number.said
      ? p.say('patientHelp.call', { contact: number.lines.join(' ').replace(/\.$/, '') })
      : p.say('patientHelp.noNumber'),
    caution: [p.say('patientCaution.talk'), p.say('patientCaution.days')],
  };
}
