import type { Severity } from '../../findings/define.js';
import type { Role } from './points.js';

/** One pair: what must not come after what. */
export interface Order {
  readonly earlier: Role;
  readonly later: readonly Role[];
  readonly severity: Severity;
  readonly basis: string;
}

const CHECKLIST =
  'WHO Surgical Safety Checklist (2009): sign-in before anaesthesia, time-out before incision, sign-out before the patient leaves; from memory';
const PRACTICE = 'common practice, no source';
const MEANING = 'what the words mean';

const rule = (earlier: Role, later: readonly Role[], severity: Severity, basis = MEANING): Order => ({
  earlier,
  later,
  severity,
  basis,
});

/**
 * What must come before what, the harder rules first. A time that is not recorded is in no pair, and dates are compared
 * at the precision that both have. Times that a case may well have in either order are not in the table: a drug before
 * the start, an image kept after the end.
 */
export const order: readonly Order[] = [
  rule('birth', ['caseDate', 'earlier', 'labBefore', 'lastDose', 'consent', 'start'], 'error'),
  rule('start', ['end'], 'error'),
  rule('sedationStart', ['sedationEnd'], 'error'),
  rule('signIn', ['timeOut', 'signOut'], 'error', CHECKLIST),
  rule('timeOut', ['signOut'], 'error', CHECKLIST),
  rule('urineFrom', ['urineTo'], 'error'),
  rule('earlier', ['caseDate', 'start', 'access'], 'error'),
  rule('caseDate', ['end', 'access', 'signed'], 'error'),
  rule('start', ['event', 'drugOfCase', 'contrast', 'specimen', 'complication', 'signOut'], 'warning'),
  rule('event', ['end'], 'warning'),
  rule('contrast', ['end'], 'warning'),
  rule('specimen', ['end'], 'warning'),
  rule('end', ['signed'], 'warning', PRACTICE),
  rule('last', ['signed'], 'warning', PRACTICE),
  rule('consent', ['sedationStart', 'access'], 'warning', PRACTICE),
  rule('lastDose', ['access'], 'warning'),
  rule('labBefore', ['access', 'end'], 'warning'),
  rule('imagedBefore', ['caseDate'], 'warning'),
  rule('toldBefore', ['caseDate', 'start'], 'warning'),
  rule('food', ['sedationStart', 'access'], 'warning'),
  rule('fluids', ['sedationStart', 'access'], 'warning'),
  rule('signIn', ['sedationStart', 'access'], 'warning', CHECKLIST),
  rule('timeOut', ['access'], 'warning', CHECKLIST),
  rule('last', ['signOut'], 'warning', CHECKLIST),
  rule('lastUse', ['signOut'], 'warning', CHECKLIST),
  rule('last', ['awake'], 'warning', PRACTICE),
  rule('end', ['home'], 'warning'),
  rule('sedationStart', ['end'], 'warning', PRACTICE),
  rule('access', ['specimen'], 'warning'),
  rule('start', ['labAfter', 'urineFrom', 'change'], 'warning'),
  rule('end', ['labAfter', 'urineFrom'], 'warning'),
  rule('drug', ['signed'], 'warning'),
  rule('drugOfCase', ['signed'], 'warning'),
  rule('complication', ['signed'], 'warning'),
  rule('cause', ['answer'], 'warning', PRACTICE),
  rule('access', ['through'], 'warning', PRACTICE),
  rule('localFirst', ['last'], 'warning', PRACTICE),
  rule('birth', ['death'], 'error'),
  rule('start', ['death'], 'warning'),
  rule('lastIn', ['death'], 'warning'),
];

/** Roles by how likely their time is the wrong one where two disagree: what many others hang on comes last. */
export const suspects: readonly Role[] = [
  'urineFrom',
  'urineTo',
  'change',
  'labAfter',
  'death',
  'complication',
  'specimen',
  'image',
  'contrast',
  'answer',
  'through',
  'localFirst',
  'drug',
  'drugOfCase',
  'event',
  'cause',
  'food',
  'fluids',
  'imagedBefore',
  'toldBefore',
  'labBefore',
  'lastDose',
  'consent',
  'signOut',
  'timeOut',
  'signIn',
  'signed',
  'home',
  'awake',
  'sedationEnd',
  'sedationStart',
  'earlier',
  'birth',
  'end',
  'start',
  'lastIn',
  'lastUse',
  'last',
  'access',
  'caseDate',
];
