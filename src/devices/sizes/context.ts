import type { FindingCode } from '../../findings/catalogue.js';
import { type Finding, type FindingOptions, type FindingParams, finding } from '../../findings/finding.js';
import type { Message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { DeviceState, Play } from '../tally/state.js';
import type { TallyEvent } from '../types.js';
import type { Measure } from './geometry.js';

/** A check that could not be made because a size is not recorded. */
export interface NotChecked {
  readonly what: Message;
  readonly because: Message;
  readonly path: string;
}

/** Codes of the size checks. */
export type SizeCode = Extract<FindingCode, `size.${string}`>;

/** What the size checks share while the events are played. */
export interface SizeContext {
  readonly record: CaseRecord;
  readonly findings: Finding[];
  readonly notChecked: NotChecked[];
  /** Pairs already spoken about: the same two devices meet at many events. */
  readonly said: Set<string>;
  /** Last recorded length inside the patient, by device, and what followed it. */
  readonly depths: Map<string, Measure>;
  /** Sheath that a device went through by the wire that it went over, where the record does not say so. */
  readonly ways: Map<string, string>;
}

/** The moment being looked at: everything as it stands just before the event. */
export interface Moment {
  readonly play: Play;
  readonly at: TallyEvent;
  readonly device: DeviceState | undefined;
}

/** Adds a finding once for the same code and `about`. */
export function say<C extends SizeCode>(
  context: SizeContext,
  about: readonly string[],
  code: C,
  path: string,
  params: FindingParams<C>,
  options: FindingOptions = {},
): void {
  const key = JSON.stringify([code, ...about]);
  if (context.said.has(key)) return;
  context.said.add(key);
  context.findings.push(finding(code, path, params, options));
}

/** Notes once that a check was not made. */
export function skip(context: SizeContext, what: Message, because: Message, path: string): void {
  const key = JSON.stringify(['not checked', what, because]);
  if (context.said.has(key)) return;
  context.said.add(key);
  context.notChecked.push({ what, because, path });
}

/** The state of a device by key. */
export function stateOf(moment: Moment, key: string | undefined): DeviceState | undefined {
  return key === undefined ? undefined : moment.play.states.get(key);
}
