import { died } from '../../record/died.js';
import type { Printer } from '../print/printer.js';
import { detail } from './blocks.js';
import type { Ending, Fact } from './model.js';

/** Day or time of the death, as far as it is recorded. */
function diedWhen(p: Printer): string | undefined {
  const { outcome, complications } = p.record;
  const fatal = Array.isArray(complications)
    ? complications.find(complication => complication.harm === 'death')
    : undefined;
  const when = outcome?.died ?? fatal?.at;
  return when && p.when(when);
}

/** What every reader but the patient must see first: a death, and what follows instead of the case. */
export function endingNotices(p: Printer): string[] {
  const { outcome } = p.record;
  return [
    ...(died(p.record) ? [p.say('notice.died')] : []),
    ...(outcome?.followedBy === undefined ? [] : [p.say(`notice.then.${outcome.followedBy}`)]),
  ];
}

/** A death in the words for each reader; empty where the patient lives. */
export function endingOf(p: Printer): Ending {
  if (!died(p.record)) return { referrer: [], ward: [] };
  const when = diedWhen(p);
  const coroner = p.record.outcome?.coroner;
  const said = (reader: 'referrer' | 'ward') => [
    when === undefined ? p.say(`ending.${reader}`) : p.say(`ending.${reader}When`, { when }),
    ...(coroner === undefined ? [] : [p.say(coroner ? 'ending.coroner' : 'ending.noCoroner')]),
  ];
  return { referrer: said('referrer'), ward: said('ward') };
}

/** The same as facts of the full report. */
export function endingFacts(p: Printer): Fact[] {
  const { outcome } = p.record;
  const coroner = outcome?.coroner;
  return [
    ...detail(p, 'died', died(p.record) ? (diedWhen(p) ?? p.say('yes')) : undefined),
    ...detail(p, 'coroner', coroner === undefined ? undefined : p.say(coroner ? 'yes' : 'no')),
    ...detail(p, 'then', outcome?.followedBy && p.say(`then.${outcome.followedBy}`)),
  ];
}
