import type { DeviceDetails } from '../devices/types.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { Moment } from '../record/time.js';
import { firstAccess, lastEvent, spanText } from './access.js';
import { assessed, type Calculation, type CalculationBase, type Input, notAssessed } from './calculation.js';

interface Mark {
  readonly name: string;
  readonly at: Moment | undefined;
  readonly path: string;
}

/** Minutes between the marks of the case, from times that stand in the record anyway. */
export function intervals(
  record: CaseRecord,
  devices: ReadonlyMap<string, DeviceDetails> = new Map(),
): Calculation[] {
  const checklist = record.before?.checklist;
  const mark = (name: string, at: Moment | undefined, path: string): Mark => ({ name, at, path });
  const signIn = mark('Sign-in', checklist?.signIn, 'before.checklist.signIn');
  const access = mark('First access', firstAccess(record), 'events');
  const device = mark('First device that stays', firstImplant(record, devices), 'events');
  const last = mark('Last event', lastEvent(record), 'events');
  const spans = [
    { key: 'door-to-access', what: 'Sign-in to access', from: signIn, to: access },
    { key: 'access-to-device', what: 'Access to the first device that stays', from: access, to: device },
    { key: 'access-to-end', what: 'Access to the last event', from: access, to: last },
    {
      key: 'case-length',
      what: 'Length of the case',
      from: mark('Start', record.case.started, 'case.started'),
      to: mark('End', record.case.ended, 'case.ended'),
    },
    {
      key: 'end-to-sign-out',
      what: 'Last event to sign-out',
      from: last,
      to: mark('Sign-out', checklist?.signOut, 'before.checklist.signOut'),
    },
  ] as const;
  return spans.flatMap(({ key, what, from, to }): Calculation[] => {
    const base: CalculationBase = {
      key,
      group: 'times',
      what,
      rule: 'difference of the two times, whole minutes',
      basis: 'arithmetic',
    };
    const inputs = [from, to].flatMap(({ name, at, path }): Input[] =>
      at ? [{ name, value: at.clock, path }] : [],
    );
    if (!from.at || !to.at) return [];
    if (to.at.epoch < from.at.epoch)
      return [notAssessed(base, `'${to.name}' is recorded before '${from.name}'`, inputs)];
    const minutes = Math.round((to.at.epoch - from.at.epoch) / 60_000);
    return [
      assessed(
        base,
        { value: String(minutes), unit: 'min', code: 'min' },
        inputs,
        minutes < 60 ? `${minutes} min` : `${minutes} min (${spanText(minutes)})`,
      ),
    ];
  });
}

/** When the first device that is meant to stay was deployed, or put in where no deployment is recorded. */
function firstImplant(record: CaseRecord, devices: ReadonlyMap<string, DeviceDetails>): Moment | undefined {
  const events = [...(record.events ?? [])].sort((a, b) => a.at.epoch - b.at.epoch);
  const of = (...verbs: string[]) =>
    events.filter(
      event =>
        verbs.includes(event.do) && event.device !== undefined && devices.get(event.device)?.implant === true,
    );
  const deployed = new Set(of('deploy', 'detach').map(event => event.device));
  return [...of('deploy', 'detach'), ...of('insert', 'exchange').filter(e => !deployed.has(e.device))].sort(
    (a, b) => a.at.epoch - b.at.epoch,
  )[0]?.at;
}
