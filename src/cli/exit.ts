import { type Finding, stops } from '../findings/finding.js';
import { filled } from './terminal/fill.js';

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

type Meanings = Readonly<Partial<Record<ExitCode, string>>>;

/** What 2 and 70 mean wherever nothing else is said. */
const COMMON: Meanings = {
  0: 'done',
  2: 'usage, or something that cannot be read or written',
  70: 'a fault in Casetally itself',
};
const OUTBOX: Meanings = { 2: 'usage, or the outbox cannot be opened' };
const LIST: Meanings = {
  0: 'printed, whether there is something or not',
  1: 'with --fail-if-any: the list has something',
  2: 'usage, or a register that cannot be opened',
};
const DRAFTS: Meanings = { 0: 'printed', 2: 'usage, no such draft, or drafts that cannot be opened' };
const DECIDED: Meanings = { 2: 'usage, or the register holds no such thing; nothing was changed' };
const REGISTRY: Meanings = {
  0: 'everything is accepted, or sent and not answered yet',
  1: 'something is held back, or waits; the rest is sent',
  2: 'usage, settings that must be mended, or a file that is no case',
  3: 'the registry refused a line, or a batch',
  4: 'the registry could not be reached, or it is not known whether a batch arrived',
};
const BROUGHT_IN: Meanings = {
  0: 'written, or nothing to write; nothing disagrees',
  1: 'something disagrees, was held back or could not be taken; the rest is written',
  2: 'usage, or a record, kit or site configuration that cannot be read or written',
  4: 'the destination that has the order could not be reached; the rest is written',
};
const SENT: Meanings = {
  2: 'usage, a record that cannot be read, or settings or an outbox that must be mended',
  3: 'the destination refused it',
  4: 'the destination could not be reached, or it is not known whether it arrived',
};

/** The codes that a command can end with, and what they mean there. */
const OF_COMMANDS: Readonly<Record<string, Meanings>> = {
  check: { 0: 'no error in any case', 1: 'at least one error', 2: 'usage, or a file that is no case record' },
  new: BROUGHT_IN,
  add: BROUGHT_IN,
  scan: {
    ...BROUGHT_IN,
    1: 'a label could not be read, or nobody said what a device is; the rest is written',
  },
  prepare: { 0: 'written', 1: 'at least one error; nothing was written' },
  report: { 0: 'printed', 1: 'at least one error; a draft at the most was printed' },
  aftercare: { 0: 'printed', 1: 'at least one error in the record: the plan may lack something' },
  validate: { 0: 'no error', 1: 'at least one error', 2: 'usage, or a file that is no FHIR JSON' },
  'templates check': { 0: 'the templates can be used', 1: 'they cannot' },
  'registry build': {
    0: 'every entry was built',
    1: 'something is held back by an error, or waits for a final report; the rest is written',
  },
  'registry list': { 0: 'printed' },
  'registry check': {
    0: 'nothing holds anything back',
    1: 'something is held back, or waits',
    2: 'usage, settings that must be mended, or a file that is no case',
  },
  'registry send': REGISTRY,
  'registry resend': REGISTRY,
  'registry reconcile': {
    0: 'every line is accepted',
    1: 'an answer leaves out a line, or is not sound',
    2: 'usage, or an answer that cannot be read or is of no batch',
    3: 'the registry refused a line',
  },
  'registry resolve': { 0: 'it stands for something', 1: 'it stands for nothing here' },
  'registry backup': {
    0: 'copied',
    2: 'usage, a file that is there already, or a store that cannot be read',
  },
  'registry restore': { 0: 'copied', 2: 'usage, a store that is there already, or a file that is none' },
  'registry rekey': { 0: 'written', 2: 'usage, or a secret that is missing or another' },
  'register take': {
    0: 'everything was taken in, or was there already',
    1: 'something is held back, or for a person to decide; the rest is taken in',
    2: 'usage, a file that is no case, or a register that cannot be opened',
  },
  'register inside': LIST,
  'register history': { 0: 'printed', 2: 'usage, no such device, or a register that cannot be opened' },
  'register due': LIST,
  'register overdue': LIST,
  'register unreviewed': LIST,
  'register unlinked': LIST,
  'register recall': LIST,
  'register measures': { 0: 'printed', 2: 'usage, or a register that cannot be opened' },
  'register backup': {
    0: 'copied',
    2: 'usage, a file that is there already, or a register that cannot be read',
  },
  'register restore': { 0: 'copied', 2: 'usage, a register that is there already, or a file that is none' },
  'register link': DECIDED,
  'register unlink': DECIDED,
  'register join': DECIDED,
  'register update-destinations': {
    0: 'nothing is left to be done',
    3: 'a person must look at something',
    4: 'something still waits',
  },
  'register rebuild': { 0: 'done', 1: 'a record can no longer be read; what was known of it stays' },
  'register doctor': { 0: 'all is sound', 1: 'something is not sound' },
  'drafts list': DRAFTS,
  'drafts show': DRAFTS,
  'drafts export': { ...DRAFTS, 2: 'usage, no such draft or version, or a file that cannot be written' },
  'drafts import': { 0: 'begun', 1: 'the text is no record', 2: 'usage, or drafts that cannot be opened' },
  'drafts discard': { ...DRAFTS, 0: 'discarded', 1: 'it was taken in, discarded or changed meanwhile' },
  'drafts purge': { 0: 'done', 2: 'usage, or drafts that cannot be opened' },
  'drafts backup': { 0: 'copied', 2: 'usage, a file that is there already, or drafts that cannot be read' },
  'drafts restore': { 0: 'copied', 2: 'usage, drafts that are there already, or a file that is none' },
  send: {
    ...SENT,
    0: 'every destination accepted the case; or, with --dry-run, nothing stands against it',
    1: 'an error, or a near match that must be accepted; nothing was sent',
  },
  bulk: {
    0: 'every case was stored, written or taken in, now or by an earlier run',
    1: 'cases were set aside because of findings, or it was stopped before the end; the rest is done',
    2: 'usage, no case, a record that cannot be read (the rest is done), or an environment that must be mended',
  },
  move: { ...SENT, 0: 'both were accepted', 1: 'one of the two was not sent because of findings' },
  demo: { ...SENT, 1: 'the example has an error' },
  events: {
    0: 'every line was understood',
    1: 'a line is uncertain or was not understood',
    2: 'usage, or a record that cannot be read',
  },
  trays: {
    0: 'the events can have been as they are told',
    1: 'an event cannot have been as it is told',
    2: 'usage, or a record whose devices or events cannot be read',
  },
  label: { 0: 'valid', 1: 'at least one error', 2: 'not a label' },
  dose: {
    0: 'every report was read, with no error',
    1: 'at least one error: another patient or case, reports that do not go together, a unit or point that is wrong',
    2: 'usage, a file that is no dose report, or a record that cannot be read',
  },
  'codes check': {
    0: 'all was read, whether a name has no code or not',
    1: 'with --fail-if-any: a name has no code',
    2: 'usage, or a file that cannot be read as a case or as a list of codes',
  },
  questionnaire: { 0: 'printed' },
  'from-response': {
    0: 'the record has no error',
    1: 'at least one error; the record is written to be corrected, unless the response is refused',
    2: 'usage, or a file that is no response',
  },
  'to-response': {
    0: 'written',
    1: 'at least one error in the record',
    2: 'usage, or a file that is no case record',
  },
  compare: { 0: 'both were read, whether they differ or not', 2: 'usage, or a record that cannot be read' },
  verify: { 0: 'it is', 1: 'it is not, or it cannot be told' },
  'packages write': { 0: 'written' },
  'packages push': {
    0: 'everything is there',
    3: 'the destination refused a part, or has one of them twice',
    4: 'it could not be reached',
  },
  doctor: {
    0: 'every check passed',
    2: 'usage, or settings that cannot be used',
    3: 'a check failed',
    4: 'it could not be reached',
  },
  'outbox list': OUTBOX,
  'outbox show': { ...OUTBOX, 2: 'usage, no such item, or the outbox cannot be opened' },
  'outbox receipt': { ...OUTBOX, 1: 'the item has no receipt' },
  'outbox export': OUTBOX,
  'outbox retry': {
    ...OUTBOX,
    0: 'nothing is left undelivered',
    3: 'a person must look at an item',
    4: 'an item is still waiting',
  },
  'outbox park': { ...OUTBOX, 1: 'the item is in no state to be parked' },
  'outbox discard': { ...OUTBOX, 1: 'the item is in no state to be discarded' },
  'outbox work': { 0: 'stopped when it was told to', 2: 'usage, settings, or the outbox cannot be opened' },
  'outbox purge': OUTBOX,
  'outbox rekey': { ...OUTBOX, 2: 'usage, or a key is missing; nothing was changed' },
  'outbox doctor': { ...OUTBOX, 0: 'all is sound', 1: 'something is not sound' },
  'outbox rescue': { 0: 'everything was copied', 1: 'something could not be read' },
  serve: { 0: 'stopped when it was told to', 2: 'usage, or settings that must be mended' },
  'audit verify': {
    0: 'the trail is sound',
    1: 'the trail is broken; the first broken entry is named',
    2: 'usage, or an audit trail that cannot be opened',
  },
  'audit head': { 0: 'printed', 2: 'usage, or an audit trail that cannot be opened' },
  'audit list': { 0: 'printed', 2: 'usage, or an audit trail that cannot be opened' },
  'audit export': { 0: 'printed', 2: 'usage, or an audit trail that cannot be opened' },
  'audit backup': {
    0: 'copied',
    2: 'usage, a file that is there already, or an audit trail that cannot be read',
  },
  'audit restore': { 0: 'copied', 2: 'usage, an audit trail that is there already, or a file that is none' },
  sandbox: { 0: 'stopped when it was told to', 2: 'usage, or the port is taken' },
};

/** The exit codes of a command for its help; those of all commands for ''. */
export function exitHelp(command: string, columns?: number): string {
  const rows = command === '' ? exitMeanings : Object.entries({ ...COMMON, ...OF_COMMANDS[command] });
  const lines = rows.map(([code, meaning]) => filled(meaning, columns, `${String(code).padStart(3)}  `));
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
