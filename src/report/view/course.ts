import { isMedium } from '../../clinical/agreement/contrast.js';
import { eventsMoving, rowsOf } from '../../devices/by-device.js';
import { inOrder } from '../../devices/tally/state.js';
import type { WordKey } from '../../findings/languages.js';
import type { CaseEvent } from '../../record/schema/record.js';
import type { Printer } from '../print/printer.js';
import { absent, fact, said } from './blocks.js';
import { insideBy, insideOf } from './inside.js';
import type { Fact } from './model.js';

/**
 * Steps of a case as a colleague tells them, each with its sentence where the place is known and where it is not; events
 * that only serve another step are in none.
 */
const steps = {
  punctured: ['course.punctured', 'course.puncturedBare'],
  through: ['course.through', 'course.through'],
  crossed: ['course.crossed', 'course.crossedBare'],
  uncrossed: ['course.uncrossed', 'course.uncrossedBare'],
  dilated: ['course.dilated', 'course.dilatedBare'],
  placed: ['course.placed', 'course.placedBare'],
  injected: ['course.injected', 'course.injected'],
  sampled: ['course.sampled', 'course.sampledBare'],
  aspirated: ['course.aspirated', 'course.aspirated'],
  earlier: ['course.earlier', 'course.earlier'],
  broke: ['course.broke', 'course.broke'],
} as const satisfies Record<string, readonly [WordKey, WordKey]>;
type Step = keyof typeof steps;

/** Of these the number matters; a balloon that was inflated twice is one balloon. */
const counted: ReadonlySet<Step> = new Set(['placed', 'injected']);

interface Sentence {
  readonly step: Step;
  readonly where: string;
  /** Names in the order of the events, each once, and how often it was used. */
  readonly names: Map<string, number>;
  readonly details: Set<string>;
}

/** What was done, in a few sentences. */
export function course(p: Printer): Fact {
  const sentences = courseOf(p);
  return fact(p, 'course', sentences.length > 0 ? said(sentences.join(' ')) : absent(p));
}

/** The events by step and place, then how it ended. */
function courseOf(p: Printer): string[] {
  const events = inOrder(p.record).map(({ event }) => event);
  if (events.length === 0) return [];
  const sentences = new Map<string, Sentence>();
  for (const event of events) {
    const told = stepOf(p, event);
    if (!told) continue;
    const { step, where, name, count = 1, details = [] } = told;
    const key = `${step} ${where}`;
    const sentence = sentences.get(key) ?? { step, where, names: new Map(), details: new Set() };
    sentences.set(key, sentence);
    if (name !== undefined) sentence.names.set(name, (sentence.names.get(name) ?? 0) + count);
    for (const detail of details) sentence.details.add(detail);
  }
  return [...[...sentences.values()].map(one => sentenceOf(p, one)), ...endOf(p, events)];
}

interface Told {
  readonly step: Step;
  readonly where: string;
  readonly name?: string | undefined;
  readonly count?: number | undefined;
  readonly details?: readonly string[];
}

function stepOf(p: Printer, event: CaseEvent): Told | undefined {
  const { device, part } = event;
  const details = device === undefined ? undefined : p.assessment.devices.get(device);
  const name = device === undefined ? undefined : p.deviceShort(device);
  const target = event.across ?? event.target;
  const where =
    target === undefined ? (event.into === undefined ? '' : p.place(event.into.text)) : p.target(target);
  switch (event.do) {
    case 'puncture': {
      const site =
        (event.into && p.place(event.into.text)) ??
        (event.target === undefined
          ? event.access === undefined
            ? ''
            : p.access(event.access)
          : p.target(event.target));
      return { step: 'punctured', where: site, name, details: howPunctured(p, event) };
    }
    case 'insert':
    case 'exchange':
      if (details?.family === 'sheath' && part === undefined) return { step: 'through', where: '', name };
      return placedOf(p, event, where);
    case 'deploy':
    case 'detach':
    case 'release':
      return isInserted(p, device) ? undefined : placedOf(p, event, where);
    case 'cross':
      return { step: event.crossed === false ? 'uncrossed' : 'crossed', where, name };
    case 'inflate':
      return target === undefined || details?.family !== 'balloon'
        ? undefined
        : {
            step: 'dilated',
            where,
            name: device && p.device(device),
            details: event.pressure ? [p.quantity(event.pressure)] : [],
          };
    case 'inject':
      return injectionOf(p, event, where);
    case 'sample':
      return { step: 'sampled', where, name, count: event.count ?? 1 };
    case 'aspirate':
      return {
        step: 'aspirated',
        where: '',
        name: [event.volume && p.quantity(event.volume), event.result && p.place(event.result)]
          .filter(Boolean)
          .join(' '),
      };
    case 'remove':
    case 'retrieve':
      return details?.carried && part === undefined
        ? { step: 'earlier', where: '', name, details: endState(p, device) }
        : undefined;
    case 'fracture':
    case 'lose':
      return {
        step: 'broke',
        where: '',
        name: device === undefined ? undefined : p.pieceShort(device, part),
        details: [p.moment(event.at)],
      };
    default:
      return undefined;
  }
}

/** `removed in pieces, all of them`: whole or not is what is asked of what was in before. */
function endState(p: Printer, device: string | undefined): string[] {
  const entry =
    device === undefined ? undefined : rowsOf(p.assessment.tally, device).find(one => one.part === undefined);
  return entry ? [p.say(`state.${entry.state}`)] : [];
}

function howPunctured(p: Printer, { guidance, access }: CaseEvent): string[] {
  const way = p.record.access?.find(({ key }) => key === access);
  return [
    ...(guidance === undefined ? [] : [p.say(`guidance.${guidance}`)]),
    ...(way?.passes === undefined ? [] : [p.plural('access.passes', String(way.passes))]),
  ];
}

/** What was injected to stay or to act; contrast and flushes are told elsewhere. */
function injectionOf(p: Printer, event: CaseEvent, where: string): Told | undefined {
  const { agent, volume, device } = event;
  const embolic = device !== undefined && p.assessment.devices.get(device)?.family === 'embolic';
  const what = embolic ? p.deviceShort(device) : agent && p.drug(agent);
  if (what === undefined || where === '' || (!embolic && isPassing(agent ?? ''))) return undefined;
  const name = volume ? p.say('course.amount', { volume: p.quantity(volume), what }) : what;
  return { step: 'injected', where, name };
}

/** What does not stay where it was injected: contrast, what flushes, and gas to see by. */
const isPassing = (agent: string) =>
  isMedium(agent) || /\b(?:saline|sodium chloride|water|carbon dioxide|CO2|CO₂)\b/i.test(agent);

/** What stays, at the place of the event or else where it lies in the end. */
function placedOf(p: Printer, { device, part, count }: CaseEvent, where: string): Told | undefined {
  const [stays] = device === undefined ? [] : (insideBy(p).get(device) ?? []);
  if (!stays || part !== undefined) return undefined;
  return {
    step: 'placed',
    where: where || (stays.left?.site === undefined ? '' : p.place(stays.left.site.text)),
    name: p.device(stays.device),
    count,
  };
}

/** One that went in by an insertion is told then, where it lies. */
const isInserted = (p: Printer, device: string | undefined) =>
  device !== undefined &&
  eventsMoving(p.record, device).some(
    ({ event }) =>
      (event.do === 'insert' || event.do === 'exchange') &&
      event.device === device &&
      event.part === undefined,
  );

function sentenceOf(p: Printer, { step, where, names, details }: Sentence): string {
  const named = [...names].map(([name, n]) =>
    n > 1 && counted.has(step) ? p.say('name.count', { name, n: String(n) }) : name,
  );
  const number = [...names.values()].reduce((sum, n) => sum + n, 0);
  const samples = step === 'sampled' ? [p.plural('specimen.count', String(number))] : [];
  const list = [named.join(', '), ...samples, ...details].filter(part => part !== '').join('; ');
  const key = steps[step][where === '' ? 1 : 0];
  return capital(p.say(key, { where: inSentence(p, where), list }));
}

/** How it ended: what contrast showed last, what came out, how the way in was closed. */
function endOf(p: Printer, events: readonly CaseEvent[]): string[] {
  const shown = events.findLast(
    ({ do: verb, agent, result }) => verb === 'inject' && isMedium(agent ?? '') && result !== undefined,
  )?.result;
  const { entries } = p.assessment.tally;
  const gone = entries.filter(({ inserted, state }) => inserted !== undefined && !/^in situ/.test(state));
  const whole = gone.length > 0 && gone.every(({ state }) => state === 'removed intact');
  const closures = (p.record.access ?? []).flatMap(({ closure }) => closure ?? []);
  return [
    ...(shown === undefined ? [] : [p.say('course.shown', { list: shown })]),
    ...(whole ? [p.say(insideOf(p).length > 0 ? 'course.out' : 'course.outAll')] : []),
    ...(closures.length === 0 ? [] : [p.say('course.closed', { list: closures.map(p.thing).join('; ') })]),
  ];
}

/** A place as it stands in the middle of a sentence; German writes its nouns large, and abbreviations stay. */
const inSentence = (p: Printer, where: string) =>
  p.language === 'de' || !/^\p{Lu}\p{Ll}/u.test(where)
    ? where
    : where.charAt(0).toLowerCase() + where.slice(1);

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
