import { type Message, message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { segmentsOf } from '../../record/sources.js';

/** The kit that put a device on the table, by what the record says of its sources: nobody has said that it was used. */
export function kitOf({ sources }: CaseRecord, key: string): Message | undefined {
  const line = sources?.find(({ from, path }) => {
    const [group, device, ...within] = segmentsOf(path);
    return from === 'kit' && group === 'devices' && device === key && within.length === 0;
  });
  if (!line) return undefined;
  const source = message('source.kit');
  return line.by === undefined ? source : message('source.named', { source, by: line.by });
}
