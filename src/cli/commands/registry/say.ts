import type { Finding } from '../../../findings/finding.js';
import type { BatchFate } from '../../../pipeline/registry/settle.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted } from '../../output.js';

/** Everything there is to say of a batch and of the cases in it. */
export const fateFindings = ({ findings, cases }: BatchFate): Finding[] => [
  ...findings,
  ...cases.map(one => one.finding),
];

/** What became of each batch, a sentence each. */
export const fateLines = (fates: readonly BatchFate[]): string[] => fates.map(fateLine);

function fateLine({ batch, entries, fate, reason, verdicts }: BatchFate): string {
  const what = `batch ${batch} (${counted(entries, 'entry', 'entries')})`;
  switch (fate) {
    case 'sent':
      return `${what}: sent, and not answered yet`;
    case 'answered': {
      const { accepted, duplicate, refused, missing } = verdicts;
      const more = [
        ...(duplicate > 0 ? [`${duplicate} held already`] : []),
        ...(refused > 0 ? [`${refused} refused`] : []),
        ...(missing > 0 ? [`${missing} left out`] : []),
      ];
      return `${what}: ${[`${accepted} accepted`, ...more].join(', ')}`;
    }
    case 'read before':
      return `${what}: this answer was read already`;
    case 'not sent':
      return `${what}: not sent, ${reason} It goes out with the next send`;
    case 'refused':
      return `${what}: the registry refused it as a whole, ${reason} It is tried again with the next send`;
    case 'unknown':
      return `${what}: it is not known whether it arrived, ${reason} The next send asks first`;
  }
}

/** 4 where something did not arrive or may not have, 3 where the registry refused something, 1 where an answer is not sound. */
export function exitOfFates(fates: readonly BatchFate[]): ExitCode {
  const some = (of: (fate: BatchFate) => boolean) => fates.some(of);
  if (some(({ fate, verdicts }) => fate === 'refused' || verdicts.refused > 0)) return exitCodes.refused;
  if (some(({ fate }) => fate === 'unknown' || fate === 'not sent')) return exitCodes.unreachable;
  if (some(({ verdicts, findings }) => verdicts.missing > 0 || findings.length > 0))
    return exitCodes.findings;
  return exitCodes.ok;
}
