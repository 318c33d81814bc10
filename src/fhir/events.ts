import { say } from '../findings/say.js';
import { entriesOf } from '../record/entries.js';
import { printQuantity } from '../record/quantity.js';
import type { CaseEvent } from '../record/schema/record.js';
import type { MappingContext } from './context.js';
import { present } from './tidy.js';

/** An event with its place in the record and in time. */
export interface TimedEvent {
  readonly event: CaseEvent;
  /** `events[7]`. */
  readonly path: string;
  /** Place in the order of time, from 1; the same however the lines of the file are ordered. */
  readonly rank: number;
}

/** Events in the order of time; those of the same minute keep the order of the file. */
export function timedEvents(events: readonly CaseEvent[]): TimedEvent[] {
  return events
    .map((event, index) => ({ event, path: `events[${index}]` }))
    .sort((a, b) => a.event.at.epoch - b.event.at.epoch)
    .map((entry, index) => ({ ...entry, rank: index + 1 }));
}

/** Name of a device for people: never its key, unless nothing is known of it. */
export function deviceName(context: MappingContext, key: string): string {
  const details = context.assessment.devices.get(key);
  return details ? say(details.called) : key;
}

/** A place with its side, unless the words say the side already. */
export function sided(text: string, side: string | undefined): string {
  return side === undefined || new RegExp(`\\b${side}\\b`, 'i').test(text) ? text : `${side} ${text}`;
}

/** Name of a target for people: its side and what it is. */
export function targetName(context: MappingContext, key: string): string {
  const target = context.record.targets?.[key];
  return target ? sided(target.what.text, target.side) : key;
}

/** Kind of a part, as written. */
export const partKind = ({ record }: MappingContext, device: string | undefined, part: string): string =>
  record.devices?.[device ?? '']?.parts?.[part]?.kind ?? part;

function accessName({ record }: MappingContext, key: string): string {
  const access = record.access?.find(entry => entry.key === key);
  return access ? sided(access.site.text, access.side) : key;
}

function specimenName({ record }: MappingContext, key: string): string {
  const list = entriesOf(record.specimens);
  return list.find(entry => entry.key === key)?.what.text ?? key;
}

const imageName = ({ record }: MappingContext, key: string): string =>
  record.images?.find(entry => entry.key === key)?.description ?? key;

/** Everything that one event says, in one line. */
export function eventText(context: MappingContext, event: CaseEvent): string {
  const device = (key: string | undefined) => key && deviceName(context, key);
  const said = (word: string, value: string | undefined) => value && `${word} ${value}`;
  const amount = (word: string, value: Parameters<typeof printQuantity>[0] | undefined) =>
    value && `${word} ${printQuantity(value)}`;
  const where = event.across ?? event.target;
  const person = context.record.team.find(member => member.key === event.by);
  return present(
    present(event.do, event.count === undefined ? undefined : String(event.count), device(event.device)).join(
      ' ',
    ),
    said('part', event.part && partKind(context, event.device, event.part)),
    said('in place of', device(event.replaces)),
    said('together with', event.with?.map(key => deviceName(context, key)).join(', ')),
    said('over', device(event.over)),
    said('through', device(event.through)),
    said('into', event.into?.text),
    said(event.across ? 'across' : 'at', where && targetName(context, where)),
    event.across && event.target && event.across !== event.target
      ? `at ${targetName(context, event.target)}`
      : undefined,
    said('by way of', event.access && accessName(context, event.access)),
    event.guidance && (event.guidance === 'none' ? 'without guidance' : `under ${event.guidance}`),
    said('set to', event.to),
    said('fixed by', event.fixedBy),
    amount('pressure', event.pressure),
    amount('diameter', event.diameter),
    amount('depth', event.depth),
    amount('for', event.duration),
    amount('volume', event.volume),
    said('of', event.agent),
    event.crossed === undefined ? undefined : event.crossed ? 'crossed' : 'not crossed',
    said('result:', event.result),
    said('inspected:', event.state),
    event.pieces === undefined ? undefined : `in ${event.pieces} pieces`,
    said('specimen', event.specimen && specimenName(context, event.specimen)),
    said('image', event.image && imageName(context, event.image)),
    said('done by', person?.name ?? event.by),
    event.note,
  ).join('; ');
}
