import { compareText } from '../findings/finding.js';
import { comesOut } from '../trade/removal.js';
import type { Use, UsePlan } from './use.js';

/** What a later case says of something that a case left: the device is out, or the plan is over. */
export type Closing =
  | {
      readonly kind: 'device';
      /** Key in the record of the case, and of the part. */
      readonly device: string;
      readonly part?: string;
      /** Day on which the last of it came out. */
      readonly on?: string;
      /** Case that took it out. */
      readonly by: string;
    }
  | {
      readonly kind: 'plan';
      readonly key: string;
      /** `done`: what was planned is what the closing case did. */
      readonly how: 'done' | 'no longer wanted';
      readonly by: string;
    };

/**
 * What later cases say of what a case left. It follows from the histories alone, so a removal that is withdrawn or
 * corrected takes its closings with it. Only links that are exact get here: what is merely proposed closes no use.
 *
 * @param uses of one person, or all that the case speaks of.
 * @param name of the case.
 */
export function closingsOf(uses: readonly Use[], name: string): Closing[] {
  const found = uses
    .filter(({ state }) => state !== 'withdrawn')
    .flatMap((use): Closing[] => [
      ...deviceClosings(use, name),
      ...use.plans.flatMap(plan => planClosing(plan, name)),
    ]);
  return found.sort((a, b) => compareText(JSON.stringify(a), JSON.stringify(b)));
}

function deviceClosings({ state, events, ended }: Use, name: string): Closing[] {
  const last = events.findLastIndex(({ kind }) => kind === 'removed');
  const by = events[last]?.case;
  // The case that took it out says so itself.
  if (state !== 'removed' || by === undefined || by === name) return [];
  const names = events
    .slice(0, last)
    .filter(event => event.case === name && event.kind !== 'withdrawn' && event.kind !== 'corrected')
    .map(({ as }) => as.slice(name.length + 1));
  return [...new Set(names)].map(as => {
    const [device = '', part] = as.split('/');
    return {
      kind: 'device',
      device,
      ...(part !== undefined && { part }),
      ...(ended !== undefined && { on: ended }),
      by,
    };
  });
}

function planClosing({ case: of, key, what, closed }: UsePlan, name: string): Closing[] {
  if (of !== name || !closed || closed.how === 'withdrawn') return [];
  const isDone = (closed.how === 'removed' || closed.how === 'exchanged') && comesOut(what);
  return [{ kind: 'plan', key, how: isDone ? 'done' : 'no longer wanted', by: closed.case }];
}

/** The cases of which two states of histories say something else. */
export function casesChanged(before: readonly Use[], after: readonly Use[]): string[] {
  const names = new Set([...before, ...after].flatMap(use => casesOf(use)));
  const said = (uses: readonly Use[], name: string) => JSON.stringify(closingsOf(uses, name));
  return [...names].filter(name => said(before, name) !== said(after, name)).sort(compareText);
}

const casesOf = ({ events, plans }: Use): string[] => [
  ...events.map(event => event.case),
  ...plans.map(plan => plan.case),
];
