import { catalogue } from '../../findings/catalogue.js';
import { type Message, message } from '../../findings/message.js';
import { isWordKey } from '../../findings/say.js';

/** Why an item is not delivered, to be said in words. What a person gave as a reason stands as it is. */
export function reasonMessage(reason: string): string | Message {
  if (Object.hasOwn(catalogue, reason)) return message('reason.finding');
  const key = `reason.${reason}` as const;
  return isReason(key) ? { key, params: {} } : reason;
}

type ReasonKey = Extract<Message['key'], `reason.${string}`>;
const isReason = (key: string): key is ReasonKey => isWordKey(key);
