import type { DeviceUseStatement, Period, Reference } from 'fhir/r4.js';
import type { DeviceDetails } from '../../devices/types.js';
import { say } from '../../findings/say.js';
import { printQuantity } from '../../record/quantity.js';
import { comesOut, staysForGood } from '../../trade/removal.js';
import type { Breakdown, Component } from '../components.js';
import { componentRole, isPlaceable } from '../components.js';
import type { MappingContext } from '../context.js';
import { sided } from '../events.js';
import { IPS } from '../profiles.js';
import { type DeviceState, stateOf } from '../states.js';
import { present, some } from '../tidy.js';
import { sideOfTarget, siteConcept } from './body-sites.js';
import { deviceRole, ends } from './device.js';
import { personRef } from './people.js';
import { claims } from './procedure.js';

/** One DeviceUseStatement for each device or part that matters afterwards: what is inside, and implants taken out. */
export function addDeviceUses(context: MappingContext, breakdown: Breakdown): void {
  for (const details of context.assessment.devices.values()) {
    const state = stateOf(context, details.key);
    const matters = state.inside || (isPlaceable(context, details.key) && (state.carried || state.inserted));
    if (matters && !state.unaccounted) addUse(context, breakdown, details, undefined, state);
    for (const part of Object.keys(details.entry.parts ?? {})) {
      const partState = stateOf(context, details.key, part);
      // A part that stays with its device is told by the device; one that stays alone is not.
      const alone =
        !state.inside || partState.rows.some(row => row.left || row.state === 'retained unintended');
      if (partState.inside && alone) addUse(context, breakdown, details, part, partState);
    }
  }
}

/** Role of a DeviceUseStatement. */
export function useRole(key: string, part?: string): string {
  return part === undefined ? `use/${key}` : `use/${key}/${part}`;
}

function addUse(
  context: MappingContext,
  breakdown: Breakdown,
  details: DeviceDetails,
  part: string | undefined,
  state: DeviceState,
): void {
  const { key, entry } = details;
  const role = useRole(key, part);
  const row = state.rows.find(candidate => candidate.left ?? candidate.site) ?? state.rows[0];
  const left = row?.left;
  const site = left?.entry.site ?? row?.site ?? entry.carried?.site;
  const planned = state.inside ? plannedEnd(context, key, part, state) : undefined;
  const side = site && sideOfTarget(context, site);
  const parts = breakdown.components.filter(component => concerns(component, key));
  const name = part === undefined ? details.name : `${entry.parts?.[part]?.kind ?? part} of ${details.name}`;
  const resource: DeviceUseStatement = {
    resourceType: 'DeviceUseStatement',
    meta: claims(context, IPS.deviceUse),
    identifier: [context.identifier(role)],
    status: state.inside ? 'active' : 'completed',
    subject: context.ref('patient'),
    // Found from the procedure and from the device: focalDevice has no search parameter in R4.
    derivedFrom: [
      context.ref('procedure'),
      ...parts.map(component => context.ref(componentRole(component))),
      ...earlierCase(context, details),
    ],
    ...timing(context, details, state, planned?.day),
    recordedOn: context.times.date,
    source: personRef(context, context.record.report.author),
    device: context.ref(deviceRole(key, part), name),
    reasonCode: [{ text: context.record.indication.text }],
    reasonReference: some(reasonsOf(context)),
    bodySite: site && siteConcept(context, site, side),
    note: some(notes(details, state).map(text => ({ text }))),
  };
  context.add(role, resource, {
    from: left ? `left[${left.index}]` : `devices.${key}`,
    sources: {
      timingPeriod: row?.event?.path,
      'timingPeriod.end': planned?.path,
      status: row?.event?.path,
      bodySite: left?.entry.site && `left[${left.index}].site`,
      device: `devices.${key}`,
      reasonCode: 'indication.text',
      reasonReference: 'indication.conditions',
    },
    summary: present(
      name,
      ...state.rows.map(({ state: end, why }) => `${end}: ${say(why)}`),
      site && sided(site.text, side),
    ),
    section: 'inside',
  });
}

/** The case that placed it, where the record names that: by its number, since this destination may not have it. */
function earlierCase({ options }: MappingContext, { entry: { carried } }: DeviceDetails): Reference[] {
  // `CASE/DEVICE`; with a further stroke it could be a part, or a case number with a stroke.
  const [, system = options.identifiers.case, value] =
    /^(?:(\S+)\|)?([^/|]+)\/[^/|]+$/.exec(carried?.use ?? '') ?? [];
  const identifier = carried?.case ?? (value === undefined ? undefined : { system, value });
  return identifier ? [{ type: 'Procedure', identifier }] : [];
}

/** True for a component that placed, changed or took out the device, or tried to. */
function concerns({ kind, about, events }: Component, key: string): boolean {
  if (kind === 'removal' && about === key) return true;
  if (kind === 'access' || kind === 'dilatation' || kind === 'sampling') return false;
  return events.some(
    ({ event }) => event.device === key || event.replaces === key || event.with?.includes(key),
  );
}

/**
 * Timing is asked for: a device whose beginning is not known is said to be in use on the day of the case. The end of
 * what is inside is the planned one: in R4 an end in the future says that the period is planned to end then
 * (definition of Period.end). Status alone says that a device is out.
 */
function timing(
  context: MappingContext,
  { entry }: DeviceDetails,
  state: DeviceState,
  planned: string | undefined,
): { timingPeriod: Period } | { timingDateTime: string } {
  const start = state.inserted ?? entry.carried?.date?.iso;
  const end = state.inside ? planned : state.removed;
  if (start === undefined && end === undefined) return { timingDateTime: context.record.case.date };
  return { timingPeriod: { start, end } };
}

/** What takes the device out or changes it, on the first day that is set for it; nothing for what is meant to stay. */
function plannedEnd(
  { assessment, record }: MappingContext,
  key: string,
  part: string | undefined,
  { rows }: DeviceState,
): { readonly day: string; readonly path: string } | undefined {
  const left = new Map(rows.flatMap(row => (row.left ? [[`left[${row.left.index}]`, row.left.entry]] : [])));
  const stays = [...left.values()].some(
    ({ purpose, until }) => purpose === 'intended' || staysForGood(until?.condition),
  );
  // What lies in two places under two entries has no one end.
  if (stays || left.size > 1) return undefined;
  return assessment.aftercare
    .filter(item => item.device === key && comesOut(item.what))
    .filter(({ source, path }) => (source === 'left' ? left.has(path) : part === undefined))
    .flatMap(({ due, path }) =>
      due && due.date.slice(0, 10) >= record.case.date ? [{ day: due.date, path: `${path}.due` }] : [],
    )
    .sort((a, b) => (a.day < b.day ? -1 : 1))[0];
}

function reasonsOf(context: MappingContext): Reference[] {
  return (context.record.indication.conditions ?? []).map((_, i) => context.ref(`condition/${i + 1}`));
}

type Left = NonNullable<DeviceState['rows'][number]['left']>['entry'];

function notes(details: DeviceDetails, state: DeviceState): string[] {
  // A device that stays in two places may have two entries, each with a condition of its own.
  const entries = [...new Map(state.rows.flatMap(({ left }) => (left ? [[left.index, left.entry]] : [])))];
  return present(
    ...ends(state),
    ...entries.flatMap(([, left]) => leftNotes(left)),
    details.entry.carried?.use !== undefined && `In the register: ${details.entry.carried.use}`,
    details.entry.carried?.note,
  );
}

function leftNotes(left: Left): string[] {
  return present(
    left.count !== undefined && `Number that stays: ${left.count}`,
    left.purpose && `Purpose: ${left.purpose}`,
    left.set && `Set: ${left.set}`,
    left.depth && `Mark at the skin: ${printQuantity(left.depth)}`,
    left.fixedBy && `Fixed by: ${left.fixedBy}`,
    left.tip && `Tip: ${left.tip}`,
    left.lock &&
      `Lock: ${present(left.lock.solution, left.lock.volume && printQuantity(left.lock.volume)).join(', ')}`,
    left.until?.condition && `Until: ${left.until.condition}`,
    left.until?.date && `Until: ${left.until.date.text}`,
    left.latest && `At the latest: ${left.latest.text}`,
    left.note,
  );
}
