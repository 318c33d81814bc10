import type { CodeableConcept, ProcedureFocalDevice, Reference } from 'fhir/r4.js';
import { rememberedOf } from '../../record/remembered.js';
import type { CaseEvent } from '../../record/schema/record.js';
import { deviceActionCodes, fhirDeviceActions } from '../codes/devices.js';
import { codingOf, type KnownCode } from '../codes/types.js';
import { aimedAt, isPlaceable } from '../components.js';
import { mayBeSent } from '../concept.js';
import type { MappingContext } from '../context.js';
import type { MappingOptions } from '../options.js';
import { stateOf } from '../states.js';
import { deviceRole } from './device.js';

type DeviceAction = keyof typeof fhirDeviceActions;

const preferred: Record<DeviceAction, KnownCode> = {
  implanted: deviceActionCodes.insertion,
  explanted: deviceActionCodes.removal,
  manipulated: deviceActionCodes.adjustment,
};

/**
 * What was done to a device, coded twice: the SNOMED CT action of the element's preferred value set, under a licence, and
 * FHIR's own word, which is outside that value set although the standard's example uses it.
 */
function actionConcept(options: MappingOptions, action: DeviceAction): CodeableConcept {
  const own = fhirDeviceActions[action];
  const codes = [preferred[action], own].filter(code => mayBeSent(options, code));
  return { coding: codes.map(codingOf), text: own.display };
}

/**
 * What the case did to a device, or undefined for a tool, a wasted device, and one that was placed and came out
 * again: none of these was implanted or explanted.
 */
function actionOn(context: MappingContext, key: string): DeviceAction | undefined {
  const state = stateOf(context, key);
  if (state.unaccounted || state.unused) return undefined;
  const { handled, aimed } = touchedIn(context);
  const touched = handled.has(key) || aimed.has(key);
  if (state.carried) return state.inside ? (touched ? 'manipulated' : undefined) : 'explanted';
  return state.inside && isPlaceable(context, key) ? 'implanted' : undefined;
}

interface Touched {
  /** Named by an event as its device, as what it replaces, or as what is with it. */
  readonly handled: ReadonlySet<string>;
  readonly aimed: ReadonlySet<string>;
}

/** The devices that events touch, found in one pass for the whole case. */
const touchedIn = rememberedOf((context: MappingContext): Touched => {
  const events = context.record.events ?? [];
  const keys = (of: (event: CaseEvent) => readonly (string | undefined)[]) =>
    new Set(events.flatMap(of).filter(key => key !== undefined));
  return {
    handled: keys(({ device, replaces, with: others = [] }) => [device, replaces, ...others]),
    aimed: keys(event => [aimedAt(context, event)]),
  };
});

/** The focal devices among some devices of the case. */
export function focalDevices(context: MappingContext, keys: Iterable<string>): ProcedureFocalDevice[] {
  return [...keys].flatMap(key => {
    const action = actionOn(context, key);
    const name = context.assessment.devices.get(key)?.name;
    return action
      ? [{ action: actionConcept(context.options, action), manipulated: context.ref(deviceRole(key), name) }]
      : [];
  });
}

/** Devices that were used and are neither implanted nor removed implants. */
export function usedDevices(context: MappingContext, keys: Iterable<string>): Reference[] {
  return [...keys].flatMap(key => {
    const state = stateOf(context, key);
    const use = context.assessment.devices.get(key)?.entry.use ?? 'used';
    const handled = touchedIn(context).handled.has(key);
    if (actionOn(context, key) || state.unused || !(handled || use === 'failed')) return [];
    if (use === 'unopened' || use === 'opened unused') return [];
    return [context.ref(deviceRole(key), context.assessment.devices.get(key)?.name)];
  });
}
