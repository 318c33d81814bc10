import { verbs } from '../../devices/tally/verbs.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseEvent, CaseRecord } from '../../record/schema/record.js';
import type { Moment, When } from '../../record/time.js';
import { causesOf, reactionPlaces } from './causes.js';
import { daysIn, toldTimes } from './told-times.js';

/** What a time of the record stands for. Rules name pairs of these; see `order.ts`. */
export type Role =
  | 'birth'
  | 'earlier'
  | 'imagedBefore'
  /** A day or a time in the words for why the case was done and what was there before. */
  | 'toldBefore'
  | 'labBefore'
  | 'lastDose'
  | 'food'
  | 'fluids'
  | 'consent'
  | 'signIn'
  | 'timeOut'
  | 'caseDate'
  | 'start'
  | 'sedationStart'
  | 'access'
  | 'event'
  | 'last'
  | 'lastIn'
  /** The last thing done with a device, whether or not it moved. */
  | 'lastUse'
  | 'drug'
  | 'drugOfCase'
  | 'contrast'
  | 'image'
  | 'specimen'
  | 'complication'
  | 'death'
  | 'sedationEnd'
  /** The end of a general anaesthesia: nobody works on after it. */
  | 'awake'
  | 'home'
  | 'end'
  | 'signOut'
  | 'signed'
  | 'change'
  | 'labAfter'
  | 'urineFrom'
  | 'urineTo'
  /** What another drug is the answer to. */
  | 'cause'
  | 'answer'
  /** A drug that needs the way in. */
  | 'through'
  | 'localFirst';

/** One time of the record. */
export interface Point {
  readonly role: Role;
  readonly path: string;
  /** Whose it is, where a role has several: a drug, an analyte, a specimen. */
  readonly of?: string;
  /** Local date and time, as precise as written: `2024`, `2024-03-14`, `2024-03-14T09:04`. */
  readonly local: string;
  /** Milliseconds since 1970, where it is a time of day. */
  readonly epoch?: number;
  readonly text: string;
  /** Of a cause and its answer: only those of one link are compared. */
  readonly link?: string;
}

/** Purposes that only the case itself gives rise to; antibiotics, sedatives and lysis into a vein may well come before. */
const ofCase: ReadonlySet<string | undefined> = new Set([
  'local anaesthesia',
  'spasm',
  'vasodilatation',
  'haemostasis',
  'thrombolysis',
]);

/** Every time of the record that can be held against another, in the order of the record. */
export function pointsOf(record: CaseRecord): Point[] {
  const { before, after, case: head, patient, report, radiation } = record;
  const points: Point[] = [];
  const put = (role: Role, path: string, at: Moment | When | undefined, of?: string, link?: string) => {
    if (at)
      points.push({
        role,
        path,
        ...timeOf(at, head.date),
        ...(of !== undefined && { of }),
        ...(link !== undefined && { link }),
      });
  };

  put('birth', 'patient.birthDate', patient.birthDate);
  points.push({ role: 'caseDate', path: 'case.date', local: head.date, text: head.date });
  put('start', 'case.started', head.started);
  put('end', 'case.ended', head.ended);
  before?.earlierAttempts?.forEach((one, i) => {
    put('earlier', `before.earlierAttempts[${i}].date`, one.date, one.what);
  });
  for (const [key, { carried, kind }] of Object.entries(record.devices ?? {}))
    put('earlier', `devices.${key}.carried.date`, carried?.date, kind);
  if (radiation !== undefined && radiation !== 'none')
    radiation.earlier?.forEach(({ date }, i) => {
      points.push({ role: 'earlier', path: `radiation.earlier[${i}].date`, local: date, text: date });
    });
  before?.labs?.forEach(({ at, what }, i) => {
    put('labBefore', `before.labs[${i}].at`, at, what.text);
  });
  for (const day of daysIn(before?.imaging ?? ''))
    points.push({ role: 'imagedBefore', path: 'before.imaging', local: day, text: day });
  points.push(...toldTimes(record));
  entriesOf(before?.anticoagulants).forEach(({ lastDose, drug }, i) => {
    put('lastDose', `before.anticoagulants[${i}].lastDose`, lastDose, drug.text);
  });
  put('food', 'before.fasting.food', before?.fasting?.food);
  put('fluids', 'before.fasting.clearFluids', before?.fasting?.clearFluids);
  // In an emergency consent may well be written down afterwards.
  if (before?.consent?.status === 'given') put('consent', 'before.consent.at', before.consent.at);
  put('signIn', 'before.checklist.signIn', before?.checklist?.signIn);
  put('timeOut', 'before.checklist.timeOut', before?.checklist?.timeOut);
  put('signOut', 'before.checklist.signOut', before?.checklist?.signOut);
  if (record.sedation !== undefined && record.sedation !== 'none') {
    put('sedationStart', 'sedation.start', record.sedation.start);
    put('sedationEnd', 'sedation.end', record.sedation.end);
    if (record.sedation.kind === 'general anaesthesia' && record.sedation.changes === undefined)
      put('awake', 'sedation.end', record.sedation.end);
  }
  points.push(...eventPoints(record));
  const causes = causesOf(record);
  const reaction = reactionPlaces(record);
  entriesOf(record.drugs).forEach(({ at, drug, for: purpose, route }, i) => {
    for (const { role, link } of causes[i] ?? []) put(role, `drugs[${i}].at`, at, drug.text, link);
    // Lysis and what stops bleeding may have been begun on the ward or in the emergency room.
    const before = (purpose === 'thrombolysis' || purpose === 'haemostasis') && route === 'intravenous';
    put(ofCase.has(purpose) && !before ? 'drugOfCase' : 'drug', `drugs[${i}].at`, at, drug.text);
  });
  entriesOf(record.contrast).forEach(({ at, agent }, i) => {
    put('contrast', `contrast[${i}].at`, at, agent.text);
    if (i === reaction.contrast) put('cause', `contrast[${i}].at`, at, agent.text, 'reaction');
  });
  record.images?.forEach(({ at, description }, i) => {
    put('image', `images[${i}].at`, at, description);
  });
  entriesOf(record.specimens).forEach(({ at, what }, i) => {
    put('specimen', `specimens[${i}].at`, at, what.text);
  });
  entriesOf(record.complications).forEach(({ at, what }, i) => {
    put('complication', `complications[${i}].at`, at, what.text);
    if (i === reaction.complication) put('cause', `complications[${i}].at`, at, what.text, 'reaction');
  });
  put('death', 'outcome.died', record.outcome?.died);
  put('signed', 'report.signedAt', report.signedAt);
  put('change', 'report.change.at', report.change?.at);
  after?.labs?.forEach(({ at, what }, i) => {
    put('labAfter', `after.labs[${i}].at`, at, what.text);
  });
  after?.urine?.forEach(({ from, to }, i) => {
    put('urineFrom', `after.urine[${i}].from`, from);
    put('urineTo', `after.urine[${i}].to`, to);
  });
  return points;
}

/**
 * The events; the first that enters the patient and the last that moves something count as such besides. Where an
 * earlier case left a way in, the first use of it is the access.
 */
function eventPoints(record: CaseRecord): Point[] {
  const events = (record.events ?? []).map((event, i) => ({
    event,
    point: {
      role: 'event' as const,
      path: `events[${i}].at`,
      of: event.do,
      ...timeOf(event.at, record.case.date),
    },
  }));
  const ordered = [...events].sort((a, b) => a.event.at.epoch - b.event.at.epoch);
  const wayIn = Object.values(record.devices ?? {}).some(({ carried }) => carried);
  const first = ordered.find(({ event }) => {
    const { effect } = verbs[event.do];
    return effect === 'enters' || (wayIn && effect !== 'any');
  });
  const last = ordered.findLast(({ event }) => /^(?:enters|leaves|swaps)/.test(verbs[event.do].effect));
  const lastIn = ordered.findLast(({ event }) => verbs[event.do].effect === 'enters');
  const lastUse = ordered.findLast(({ event }) => event.device !== undefined && !afterwards.has(event.do));
  return [
    ...events.map(({ point }) => point),
    ...(first ? [{ ...first.point, role: 'access' as const }] : []),
    ...(last ? [{ ...last.point, role: 'last' as const }] : []),
    ...(lastIn ? [{ ...lastIn.point, role: 'lastIn' as const }] : []),
    ...(lastUse ? [{ ...lastUse.point, role: 'lastUse' as const }] : []),
  ];
}

/** What is done with a device when the work is over. */
const afterwards: ReadonlySet<CaseEvent['do']> = new Set([
  'note',
  'image',
  'count',
  'discard',
  'set',
  'lose',
]);

function timeOf(at: Moment | When, caseDate: string): Pick<Point, 'local' | 'epoch' | 'text'> {
  const moment = 'epoch' in at ? at : at.moment;
  if (!moment) return { local: 'iso' in at ? at.iso : '', text: 'iso' in at ? at.iso : '' };
  return {
    local: `${moment.date}T${moment.clock}`,
    epoch: moment.epoch,
    text: moment.date === caseDate ? moment.clock : `${moment.date} ${moment.clock}`,
  };
}

const MINUTE = 60_000;

/** True when `a` certainly comes before `b`, at the precision that both have. */
export function isBefore(a: Point, b: Point): boolean {
  if (a.epoch !== undefined && b.epoch !== undefined) {
    const seconds = a.local.length > 16 && b.local.length > 16;
    const floor = (epoch: number) => (seconds ? epoch : Math.floor(epoch / MINUTE));
    return floor(a.epoch) < floor(b.epoch);
  }
  const shared = Math.min(a.local.length, b.local.length);
  return a.local.slice(0, shared) < b.local.slice(0, shared);
}
