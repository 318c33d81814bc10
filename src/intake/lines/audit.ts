import type { DeviceFamily } from '../../devices/types.js';
import { message } from '../../findings/message.js';
import type { LineNotes } from './table/bench.js';
import type { OnTable } from './table/table.js';
import type { ProposedEvent } from './types.js';
import { isKnownPlace } from './words/places.js';

type Verb = ProposedEvent['do'];
type Field = keyof ProposedEvent;

const always: readonly Field[] = ['at', 'do', 'device', 'part', 'with', 'result', 'note'];
const ways: readonly Field[] = ['over', 'through', 'into', 'across', 'guidance', 'depth'];

/** What an act can say of itself beside its device, result and note. Common practice, no source. */
const takes: Readonly<Partial<Record<Verb, readonly Field[]>>> = {
  puncture: ['into', 'guidance', 'through', 'over', 'across'],
  insert: [...ways, 'count'],
  advance: ways,
  withdraw: [...ways, 'state'],
  reposition: ways,
  remove: ['over', 'through', 'state', 'count'],
  exchange: [...ways, 'replaces', 'state'],
  inflate: ['pressure', 'duration', 'volume', 'agent', 'across', 'count'],
  deflate: [],
  deploy: [...ways, 'pressure', 'count'],
  detach: ['through', 'into', 'across', 'count'],
  capture: ['through', 'into'],
  retrieve: ['through', 'over', 'state', 'count'],
  release: ['into', 'over', 'through'],
  cut: [],
  'peel away': ['over', 'state'],
  lock: [],
  unlock: [],
  set: ['to', 'fixedBy', 'depth', 'agent', 'volume'],
  flush: ['through', 'volume', 'agent'],
  aspirate: ['through', 'volume', 'guidance'],
  sample: ['through', 'into', 'across', 'guidance', 'count'],
  inject: ['through', 'into', 'volume', 'agent', 'duration', 'count'],
  image: ['guidance', 'into'],
  measure: ['pressure', 'into', 'depth'],
  cross: [...ways, 'crossed'],
  ablate: ['duration', 'into'],
  tunnel: ['through', 'over', 'guidance'],
  compress: ['duration', 'into'],
};

const hollow: readonly DeviceFamily[] = ['needle', 'catheter', 'sheath', 'drain', 'tube', 'dilator'];
const rails: readonly DeviceFamily[] = ['guidewire', 'catheter', 'balloon', 'dilator', 'needle'];

/** What an act can be done to or with. Common practice, no source. */
const does: Readonly<Partial<Record<Verb, readonly DeviceFamily[]>>> = {
  puncture: ['needle'],
  inflate: ['balloon', 'tube', 'drain'],
  deflate: ['balloon', 'tube', 'drain'],
  deploy: ['stent', 'filter', 'embolic', 'closure', 'anchor'],
  detach: ['embolic', 'stent'],
  lock: ['drain', 'tube', 'catheter'],
  unlock: ['drain', 'tube', 'catheter'],
  flush: hollow,
  aspirate: hollow,
  inject: [...hollow, 'embolic'],
  sample: ['needle', 'retrieval', 'catheter'],
  cross: ['guidewire', 'catheter', 'balloon'],
  ablate: ['needle', 'catheter'],
  capture: ['filter', 'stent', 'embolic', 'catheter', 'guidewire'],
  tunnel: ['catheter', 'drain', 'accessory'],
  set: ['drain', 'tube', 'catheter', 'sheath', 'accessory'],
  image: [...hollow, 'accessory'],
  compress: ['accessory', 'closure'],
  measure: [...hollow, 'guidewire'],
};

/** What moves in or out by itself, when it is no more than spoken of. */
const staying: readonly DeviceFamily[] = ['stent', 'filter', 'embolic', 'closure', 'anchor'];

/**
 * Holds what a line proposes against what its acts can be, once it is read: an event that says what such an act does
 * not, of a device that cannot do it, or of a place that is not known as one is to be looked at. It takes nothing from
 * how the line was read, so that a word read in the wrong place is noticed here.
 */
export function audit(notes: LineNotes): void {
  for (const event of notes.events) {
    const ask = (word: unknown) => notes.doubt(message('line.askBack', { word: String(word) }));
    const of = (key: string | undefined) => notes.bench.of(key);
    const device = of(event.device);
    const fields = takes[event.do];
    for (const field of Object.keys(event) as Field[])
      if (fields && !fields.includes(field) && !always.includes(field)) ask(event[field]);
    if (!fits(does[event.do], device)) ask(device?.key);
    if (
      event.do === 'compress' &&
      event.duration === undefined &&
      !/press(?:ed|ure)|manual|h[ae]*mostasis/i.test(notes.line)
    )
      ask('compress');
    if (event.do === 'remove' && device && staying.includes(device.family ?? 'accessory') && device.count > 1)
      ask(device.key);
    if (!fits(rails, of(event.over))) ask(event.over);
    if (!fits(hollow, of(event.through))) ask(event.through);
    if (event.device !== undefined && [event.over, event.through, event.replaces].includes(event.device))
      ask(event.device);
    const targets = new Set(Object.keys(notes.bench.context.targets ?? {}));
    const known = (place: string) => targets.has(place) || isKnownPlace(place) || of(place) !== undefined;
    if (event.into !== undefined && !known(event.into) && event.do !== 'withdraw') ask(event.into);
    if (event.across !== undefined && !targets.has(event.across) && !known(event.across)) ask(event.across);
  }
}

const fits = (families: readonly DeviceFamily[] | undefined, device: OnTable | undefined): boolean =>
  families === undefined || device?.family === undefined || families.includes(device.family);
