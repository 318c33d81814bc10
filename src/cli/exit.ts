import type { ErrorCode } from '../findings/errors.js';
import { type Finding, stops } from '../findings/finding.js';

/** Exit codes that scripts rely on; `casetally help exit-codes` prints this table. */
export const exitCodes = {
  ok: 0,
  findings: 1,
  usage: 2,
  refused: 3,
  unreachable: 4,
  software: 70,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

/** What each code means, for help. */
export const exitMeanings: readonly (readonly [ExitCode, string])[] = [
  [0, 'no error; for send: the destination accepted the case'],
  [1, 'at least one finding is an error; nothing was sent'],
  [2, 'usage, or input that cannot be read'],
  [3, 'the destination refused the case'],
  [4, 'the destination could not be reached, or it is not known whether the case arrived'],
  [70, 'a fault in Casetally itself'],
];

/** From the best to the worst for who sent to several: what goes out later by itself is better than what needs a person. */
const FROM_BEST: readonly ExitCode[] = [0, 4, 3, 1, 2, 70];

/** The worst of several exit codes; 0 of none. */
export function worstOf(codes: readonly ExitCode[]): ExitCode {
  return codes.reduce<ExitCode>(
    (a, b) => (FROM_BEST.indexOf(b) > FROM_BEST.indexOf(a) ? b : a),
    exitCodes.ok,
  );
}

/** 1 when any finding is an error, else 0. */
export function exitFor(findings: readonly Finding[]): ExitCode {
  return findings.some(stops) ? exitCodes.findings : exitCodes.ok;
}

/** Exit code of a thrown error: all of them are about the environment or the call. */
export function exitForError(_code: ErrorCode): ExitCode {
  return exitCodes.usage;
}
