import { type Finding, stops } from '../findings/finding.js';

/** Exit codes that scripts rely on. */
export const exitCodes = {
  ok: 0,
  findings: 1,
  usage: 2,
  refused: 3,
  unreachable: 4,
  software: 70,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

/** What each code means: the one table that help and README give. */
export const exitMeanings: readonly (readonly [ExitCode, string])[] = [
  [0, 'no error; for send: the destination accepted the case'],
  [1, 'at least one finding is an error; nothing was sent'],
  [
    2,
    'usage, input that cannot be read, or an environment that must be mended (outbox, disk, database, settings)',
  ],
  [3, 'the destination refused the case'],
  [4, 'the destination could not be reached, or it is not known whether the case arrived'],
  [70, 'a fault in Casetally itself'],
];

const FINDINGS = { 1: '' };
const SENDING = { 1: '', 3: '', 4: '' };
const LEFT = { 3: 'a person must look at an item', 4: 'an item is still waiting' };

/** The codes that a command has beside 0, 2 and 70, and what one means there where that is not the general meaning. */
const OF_COMMANDS: Readonly<Record<string, Readonly<Partial<Record<ExitCode, string>>>>> = {
  '': SENDING,
  'exit-codes': SENDING,
  check: FINDINGS,
  prepare: FINDINGS,
  report: FINDINGS,
  aftercare: FINDINGS,
  validate: FINDINGS,
  'templates check': FINDINGS,
  'registry build': FINDINGS,
  send: { ...SENDING, 1: 'a finding is an error, or a near match must be accepted; nothing was sent' },
  move: { ...SENDING, 1: 'one of the two was not sent because of findings' },
  demo: SENDING,
  'codes check': {
    0: 'all was read, whether a name has no code or not',
    1: 'with --fail-if-any: a name has no code',
    2: 'usage, or a file that cannot be read as a case or as a list of codes',
  },
  label: { 0: 'valid', 1: 'at least one finding is an error', 2: 'not a label' },
  compare: { 0: 'both were read, whether they differ or not', 2: 'usage, or a record that cannot be read' },
  verify: { 0: 'it is', 1: 'it is not, or it cannot be told' },
  'packages push': {
    0: 'everything is there',
    3: 'the destination refused a part, or has one of them twice',
    4: 'it could not be reached',
  },
  doctor: { 0: 'every check passed', 3: 'a check failed', 4: 'it could not be reached' },
  'outbox receipt': { 1: 'the item has no receipt' },
  'outbox retry': { 0: 'nothing is left undelivered', ...LEFT },
  'outbox park': { 1: 'the item is in no state to be parked' },
  'outbox discard': { 1: 'the item is in no state to be discarded' },
  'outbox rescue': { 0: 'everything was copied', 1: 'something could not be read' },
  'outbox doctor': { 0: 'all is sound', 1: 'something is not sound' },
};

/** The exit codes of a command for its help; those of all commands for ''. */
export function exitHelp(command: string): string {
  const own = OF_COMMANDS[command] ?? {};
  const lines = exitMeanings
    .filter(([code]) => code in own || code === 0 || code === 2 || code === 70)
    .map(([code, meaning]) => `${String(code).padStart(3)}  ${own[code] || meaning}\n`);
  return `Exit codes:\n${lines.join('')}`;
}

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
