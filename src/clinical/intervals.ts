import type { DeviceDetails } from '../devices/types.js';
import { type Message, message } from '../findings/message.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { Moment } from '../record/time.js';
import { firstAccess, lastEvent, spanText } from './access.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
} from './calculation.js';

interface Mark {
  readonly name: Message;
  readonly at: Moment | undefined;
  readonly path: string;
}

/** Minutes between the marks of the case, from times that stand in the record anyway. */
export function intervals(
  record: CaseRecord,
  devices: ReadonlyMap<string, DeviceDetails> = new Map(),
): Calculation[] {
  const checklist = record.before?.checklist;
  const mark = (name: Message, at: Moment | undefined, path: string): Mark => ({ name, at, path });
  const signIn = mark(message('input.sign-in'), checklist?.signIn, 'before.checklist.signIn');
  const access = mark(message('input.first-access'), firstAccess(record), 'events');
  const device = mark(message('input.first-implant'), firstImplant(record, devices), 'events');
  const last = mark(message('input.last-event'), lastEvent(record), 'events');
  const spans = [
    { key: 'door-to-access', from: signIn, to: access },
    { key: 'access-to-device', from: access, to: device },
    { key: 'access-to-end', from: access, to: last },
    {
      key: 'case-length',
      from: mark(message('input.start'), record.case.started, 'case.started'),
      to: mark(message('input.end'), record.case.ended, 'case.ended'),
    },
    {
      key: 'end-to-sign-out',
      from: last,
      to: mark(message('input.sign-out'), checklist?.signOut, 'before.checklist.signOut'),
    },
  ] as const;
  return spans.flatMap(({ key, from, to }): Calculation[] => {
    const base: CalculationBase = {
      key,
      group: 'times',
      what: message(`calculation.${key}`),
      rule: message('rule.interval'),
      basis: message('basis.arithmetic'),
    };
    const inputs = [from, to].flatMap(({ name, at, path }): Input[] =>
      at ? [inputOf(name, at.clock, path)] : [],
    );
    if (!from.at || !to.at) return [];
    if (to.at.epoch < from.at.epoch)
      return [notAssessed(base, message('why.backwards', { to: to.name, from: from.name }), inputs)];
    const minutes = Math.round((to.at.epoch - from.at.epoch) / 60_000);
    const quantity = { value: String(minutes), unit: 'min', code: 'min' };
    return [
      minutes < 60
        ? assessed(base, quantity, inputs)
        : assessed(
            base,
            quantity,
            inputs,
            message('result.span', { minutes: { quantity }, span: spanText(minutes) }),
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
