import type { Finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { playEvents } from '../tally/play.js';
import type { DeviceDetails } from '../types.js';
import type { NotChecked, SizeContext } from './context.js';
import { checkExchange } from './exchange.js';
import { checkDepth, checkPressure, followDepth } from './inflation.js';
import { checkLengths } from './lengths.js';
import { checkOrder } from './order.js';
import { checkPassage } from './passage.js';
import { checkTargets } from './targets.js';
import { checkTract } from './tract.js';
import { checkWires } from './wires.js';

/** What the size checks found, and what they could not look at. */
export interface SizeCheck {
  /** Warnings, each with its basis; a person can acknowledge them with a reason. */
  readonly findings: readonly Finding[];
  readonly notChecked: readonly NotChecked[];
}

/**
 * Holds recorded sizes against each other wherever devices met: wire and lumen, device and sheath, wire length and
 * exchange, balloon and stent and target. Exact arithmetic; an unknown size never raises a finding.
 * @param devices from `deviceDetails`
 */
export function checkSizes(record: CaseRecord, devices: ReadonlyMap<string, DeviceDetails>): SizeCheck {
  const context: SizeContext = {
    ...{ record, findings: [], notChecked: [], said: new Set(), depths: new Map(), ways: new Map() },
  };
  const play = playEvents(record, devices, (now, at) => {
    const device = at.event.device === undefined ? undefined : now.states.get(at.event.device);
    const moment = { play: now, at, device };
    checkWires(context, moment);
    checkPassage(context, moment);
    checkLengths(context, moment);
    checkExchange(context, moment);
    checkOrder(context, moment);
    checkTract(context, moment);
    checkPressure(context, moment);
    checkDepth(context, moment);
    followDepth(context, moment);
  });
  checkTargets(context, play);
  return { findings: context.findings, notChecked: context.notChecked };
}
