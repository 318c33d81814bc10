import { describeDevices } from '../../../src/devices/details.js';
import { playEvents } from '../../../src/devices/tally/play.js';
import { tallyDevices } from '../../../src/devices/tally/tally.js';
import type { TallyEntry } from '../../../src/devices/types.js';
import { messageOf, remedyOf } from '../../../src/findings/finding.js';
import { say } from '../../../src/findings/say.js';
import { entriesOf } from '../../../src/record/entries.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import { recordOf } from '../../cases/record.js';

/** The whole account of a record, in lines that a person can check. */
export interface Account {
  /** `2 x drain.lock: in situ temporary | name | why | its other facts`, in the order of the tally. */
  readonly rows: readonly string[];
  /** `severity code path: message -> remedy`, in the order of the tally. */
  readonly said: readonly string[];
  /** `in 2 drain.lock events[3]`: what the timeline draws. */
  readonly marks: readonly string[];
}

/** What is made of parts of a record, laid over a small valid one. */
export function accountOf(parts: Record<string, unknown>): Account {
  const record = recordOf(parts);
  const { devices } = describeDevices(record);
  const { entries, findings } = tallyDevices(record, devices);
  return {
    rows: entries.map(entry => rowText(record, entry)),
    said: findings.map(f => `${f.severity} ${f.code} ${f.path}: ${messageOf(f)} -> ${remedyOf(f)}`),
    marks: playEvents(record, devices).marks.map(
      ({ what, count, device, part, at }) => `${what} ${count} ${nameOf(device, part)} ${at.path}`,
    ),
  };
}

const nameOf = (device: string, part: string | undefined) =>
  part === undefined ? device : `${device}.${part}`;

function rowText(record: CaseRecord, entry: TallyEntry): string {
  const { device, part, name, state, why, event, inserted, removed, count, carried, site } = entry;
  const { left, missing } = entry;
  // Whoever follows a row to the record finds there what the row was made from.
  if (event && event.event !== record.events?.[event.index])
    throw new Error(`${event.path} is another event`);
  if (left && left.entry !== entriesOf(record.left)[left.index]) throw new Error('another line of left');
  if (missing && missing.entry !== record.missing?.[missing.index])
    throw new Error('another line of missing');
  return [
    `${count === 1 ? '' : `${count} x `}${nameOf(device, part)}: ${state}`,
    say(name),
    say(why),
    ...(event ? [event.path] : []),
    ...(inserted ? [`in ${inserted.clock}`] : []),
    ...(removed ? [`out ${removed.clock}`] : []),
    ...(carried ? ['carried'] : []),
    ...(site ? [`at ${site.text}`] : []),
    ...(left ? [`left[${left.index}]`] : []),
    ...(missing ? [`missing[${missing.index}]`] : []),
  ].join(' | ');
}
