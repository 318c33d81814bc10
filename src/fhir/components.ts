import type { CaseEvent } from '../record/schema/record.js';
import type { MappingContext } from './context.js';
import { type TimedEvent, timedEvents } from './events.js';

type ComponentKind =
  | 'access'
  | 'dilatation'
  | 'embolisation'
  | 'exchange'
  | 'placement'
  | 'removal'
  | 'sampling';

/** One part of the case that is a procedure of its own. */
export interface Component {
  readonly kind: ComponentKind;
  /** Key of the access, target, device or specimen that it is about; `case` when the record names none. */
  readonly about: string;
  readonly events: readonly TimedEvent[];
  /** Path in the record that made it so. */
  readonly path: string;
}

/** A case broken into components; `rest` are the events that belong to the case as a whole. */
export interface Breakdown {
  readonly components: readonly Component[];
  readonly rest: readonly TimedEvent[];
}

/** Role of a component's Procedure. */
export function componentRole({ kind, about }: Pick<Component, 'kind' | 'about'>): string {
  return `procedure/${kind}/${about}`;
}

const PLACEABLE = new Set(['stent', 'drain', 'filter', 'tube', 'closure', 'anchor']);
const TAKE_OUT = new Set<CaseEvent['do']>([
  'remove',
  'retrieve',
  'capture',
  'withdraw',
  'attempt',
  'cut',
  'exchange',
]);

/** True for a device whose placing or taking out is a procedure of its own; wires and sheaths are tools. */
export function isPlaceable(context: MappingContext, key: string | undefined): boolean {
  const details = key === undefined ? undefined : context.assessment.devices.get(key);
  return details !== undefined && (details.implant || details.carried || PLACEABLE.has(details.family));
}

/** Breaks a case into access, dilatation, placement, exchange, removal, sampling and embolisation. */
export function componentsOf(context: MappingContext): Breakdown {
  const events = timedEvents(context.record.events ?? []);
  const found = new Map<string, { kind: ComponentKind; about: string; path: string; events: TimedEvent[] }>();
  const open = (kind: ComponentKind, about: string, path: string) => {
    const role = componentRole({ kind, about });
    const known = found.get(role);
    if (known) return known;
    const made = { kind, about, path, events: [] };
    found.set(role, made);
    return made;
  };
  if (context.record.case.status !== 'not done')
    for (const [index, access] of (context.record.access ?? []).entries())
      open('access', access.key, `access[${index}]`);
  const lying = new Map<string, string>();
  for (const { event } of events) {
    const target = event.across ?? event.target;
    if (event.device && target && !lying.has(event.device)) lying.set(event.device, target);
  }
  const rest: TimedEvent[] = [];
  for (const timed of events) {
    const { event } = timed;
    if (event.device && event.across) lying.set(event.device, event.across);
    const key = keyOf(context, event, lying);
    if (key) open(key[0], key[1], timed.path).events.push(timed);
    else rest.push(timed);
  }
  foldExchanges(found);
  return { components: [...found.values()], rest };
}

/** An exchange is one act: what was done to the old device and to the new one belongs to it. */
function foldExchanges(
  found: Map<string, { kind: ComponentKind; about: string; events: TimedEvent[] }>,
): void {
  for (const exchange of [...found.values()].filter(({ kind }) => kind === 'exchange')) {
    const old = exchange.events.flatMap(({ event }) =>
      event.replaces === undefined ? [] : [event.replaces],
    );
    const folded = [
      componentRole({ kind: 'placement', about: exchange.about }),
      ...old.map(about => componentRole({ kind: 'removal', about })),
      ...old.map(about => componentRole({ kind: 'placement', about })),
    ];
    for (const role of folded) {
      exchange.events.push(...(found.get(role)?.events ?? []));
      found.delete(role);
    }
    exchange.events.sort((a, b) => a.rank - b.rank);
  }
}

function keyOf(
  context: MappingContext,
  event: CaseEvent,
  lying: ReadonlyMap<string, string>,
): readonly [ComponentKind, string] | undefined {
  const { device } = event;
  const details = device === undefined ? undefined : context.assessment.devices.get(device);
  const target = event.target ?? event.across ?? (device === undefined ? undefined : lying.get(device));
  if (event.do === 'puncture') return ['access', event.access ?? device ?? 'case'];
  if (event.do === 'sample' || (event.do === 'aspirate' && event.specimen))
    return ['sampling', event.specimen ?? target ?? device ?? 'case'];
  if (details?.family === 'embolic' && isHandling(event)) return ['embolisation', target ?? details.key];
  if (event.do === 'exchange' && (isPlaceable(context, device) || isPlaceable(context, event.replaces)))
    return ['exchange', device ?? event.replaces ?? 'case'];
  const taken = [device, ...(event.with ?? []), aimedAt(context, event)].find(
    key => key !== undefined && context.assessment.devices.get(key)?.carried,
  );
  if (taken !== undefined && TAKE_OUT.has(event.do)) return ['removal', taken];
  if (details && !details.carried && isPlaceable(context, device) && isHandling(event))
    return ['placement', details.key];
  if (event.do === 'inflate' || event.do === 'deflate') return ['dilatation', target ?? device ?? 'case'];
  return undefined;
}

/**
 * The device that a tool went for: named as the event's target, or the only one carried into the case when the tool is
 * made for retrieval.
 */
export function aimedAt(context: MappingContext, event: CaseEvent): string | undefined {
  const { devices } = context.assessment;
  if (event.target !== undefined && devices.get(event.target)?.carried) return event.target;
  if (!AIMED.has(event.do)) return undefined;
  const retrieval = event.device !== undefined && devices.get(event.device)?.family === 'retrieval';
  const carried = retrieval ? [...devices.values()].filter(details => details.carried) : [];
  return carried.length === 1 ? carried[0]?.key : undefined;
}

const AIMED = new Set<CaseEvent['do']>(['attempt', 'capture', 'retrieve']);

/** Events on a device that never was in the patient are no placement. */
function isHandling(event: CaseEvent): boolean {
  return !['open', 'discard', 'count', 'note', 'image', 'measure'].includes(event.do);
}
