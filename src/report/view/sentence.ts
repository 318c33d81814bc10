import type { WordKey } from '../../findings/languages.js';
import type { Param } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseEvent } from '../../record/schema/record.js';
import type { Printer } from '../print/printer.js';

/** One event as a sentence: what was done to which device, by which way, with what result. */
export function sentence(p: Printer, event: CaseEvent): string {
  const phrases: string[] = [];
  const phrase = (key: WordKey, params: Record<string, Param> | undefined) => {
    if (params) phrases.push(p.say(key, params));
  };
  const what = (value: string | undefined) => (value === undefined ? undefined : { what: value });
  const device = (key: string | undefined) => what(key && p.deviceShort(key));

  phrase('event.replaces', device(event.replaces));
  phrase(
    'event.with',
    event.with && event.with.length > 0 ? { what: { and: event.with.map(p.deviceShort) } } : undefined,
  );
  phrase('event.over', device(event.over));
  phrase('event.through', device(event.through));
  phrase('event.into', what(event.into && p.place(event.into.text)));
  phrase('event.across', what(event.across && p.target(event.across)));
  phrase('event.target', what(event.target && p.target(event.target)));
  phrase('event.access', what(event.access && p.access(event.access)));
  if (event.do === 'hand over')
    phrase('event.handTo', event.by === undefined ? undefined : { who: p.person(event.by) });
  phrase('event.to', what(event.to));
  phrase('event.pressure', event.pressure && { value: p.quantity(event.pressure) });
  phrase('event.duration', event.duration && { value: p.quantity(event.duration) });
  const opening = opened(p, event);
  return [[opening, ...phrases].join(' '), ...asides(p, event)].join('; ');
}

function opened(p: Printer, event: CaseEvent): string {
  const piece = event.device === undefined ? event.part : p.pieceShort(event.device, event.part);
  // Cement and particles are what is injected, not the way.
  const embolic = event.device !== undefined && p.assessment.devices.get(event.device)?.family === 'embolic';
  if (event.do === 'inject' && embolic && piece !== undefined)
    return p.say('event.injected', { what: piece });
  return piece === undefined ? p.say(`bare.${event.do}`) : p.say(`verb.${event.do}`, { what: piece });
}

/** What follows the sentence after semicolons. */
function asides(p: Printer, event: CaseEvent): string[] {
  const value = (key: WordKey, text: string | undefined, place = 'what') =>
    text === undefined ? [] : [p.say(key, { [place]: text })];
  return [
    ...given(p, event),
    ...value('event.diameter', event.diameter && p.quantity(event.diameter), 'value'),
    ...value('event.depth', event.depth && p.quantity(event.depth), 'value'),
    ...value('event.fixedBy', event.fixedBy && p.thing(event.fixedBy)),
    ...value('event.guidance', event.guidance && p.say(`guidance.${event.guidance}`)),
    ...value('event.count', event.count === undefined ? undefined : String(event.count), 'n'),
    ...value('event.pieces', event.pieces === undefined ? undefined : String(event.pieces), 'n'),
    ...(event.crossed === undefined ? [] : [p.say(event.crossed ? 'event.crossed' : 'event.notCrossed')]),
    ...(event.state === undefined ? [] : [p.say(`inspected.${event.state}`)]),
    ...(event.do === 'hand over' ? [] : value('event.by', event.by && p.person(event.by), 'who')),
    ...value('event.image', event.image && imageName(p, event.image)),
    ...value('event.specimen', event.specimen && specimenName(p, event.specimen)),
    ...value('event.result', event.result && p.place(event.result)),
    ...(event.note === undefined ? [] : [event.note]),
  ];
}

function given(p: Printer, { agent, volume }: CaseEvent): string[] {
  if (agent !== undefined && volume)
    return [p.say('event.volumeOf', { value: p.quantity(volume), what: p.drug(agent) })];
  if (volume) return [p.say('event.volume', { value: p.quantity(volume) })];
  return agent === undefined ? [] : [p.say('event.agent', { what: p.drug(agent) })];
}

function imageName(p: Printer, key: string): string {
  const image = p.record.images?.find(entry => entry.key === key);
  return image?.description === undefined ? key : p.caseKind(image.description);
}

function specimenName(p: Printer, key: string): string {
  const list = entriesOf(p.record.specimens);
  const found = list.find(entry => entry.key === key);
  return found ? p.place(found.what.text) : key;
}
