import { type Message, message } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { TallyEvent } from '../types.js';
import { mustBeSaid } from './parts.js';
import { type DeviceState, inOrder } from './state.js';

/** The events that take a device out, with those of its parts that must be said apart, in the words of a remedy. */
export function removalOf({ key, parts }: DeviceState): Message {
  const apart = [...parts.values()].filter(
    ({ role, count, inside, out }) => mustBeSaid(role) && count > inside + out,
  );
  return apart.reduce(
    (removal, part) => message('answer.removalPart', { removal, part: part.key }),
    message('answer.removal', { device: key }),
  );
}

/** Whether later events, or what is left, still speak of a device: then it cannot have come out before. */
export function isNamedLater(record: CaseRecord, key: string, after: TallyEvent): boolean {
  const order = inOrder(record);
  const later = order.slice(order.findIndex(({ index }) => index === after.index) + 1);
  return (
    later.some(
      ({ event: { device, replaces, with: beside } }) =>
        device === key || replaces === key || beside?.includes(key),
    ) || entriesOf(record.left).some(({ device }) => device === key)
  );
}
