import { type Message, message, type Param } from '../../findings/message.js';
import type { Complication } from '../../record/schema/record.js';

export const scaleNames = ['CIRSE 2017', 'CIRSE 2025', 'SIR 2017', 'Clavien-Dindo'] as const;
export type Scale = (typeof scaleNames)[number];

/** Where the levels of each scale come from. */
export const scaleSources: Record<Scale, Param> = {
  'CIRSE 2017': 'Filippiadis et al., CVIR 2017;40:1141',
  'CIRSE 2025': message('basis.cirse-2025'),
  'SIR 2017': message('basis.sir-2017'),
  'Clavien-Dindo': 'Dindo et al., Ann Surg 2004;240:205',
};

/** Scales that are worked out unless the site chooses others: those whose levels were read in a source. */
export const defaultScales: readonly Scale[] = ['CIRSE 2017', 'Clavien-Dindo'];

/** A grade, or why the recorded consequences do not decide it; `oneOf` where they leave a few. */
export type Grade =
  | { readonly grade: string }
  | { readonly why: Message; readonly oneOf?: readonly string[] };

type Consequence = 'treatment' | 'stay' | 'harm';

/** What a scale needs and the record does not say. */
function unsaid(c: Complication, needed: readonly Consequence[]): Grade | undefined {
  const missing = needed.filter(name => c[name] === undefined);
  if (missing.length === 0) return undefined;
  return {
    why: message('why.not-recorded', { what: { list: missing.map(name => message(`input.${name}`)) } }),
  };
}

/** Treatment beyond what the case itself needed. */
const extra = (c: Complication) =>
  c.treatment !== 'none' && c.treatment !== 'nominal' && c.treatment !== 'same session';

/**
 * CIRSE 2017: 1 solved in the same session; 2 stay prolonged under 48 h, no further therapy; 3 further therapy or stay
 * over 48 h, no sequelae; 4 mild permanent sequelae; 5 severe sequelae; 6 death.
 */
export function cirse2017(c: Complication): Grade {
  if (c.harm === 'death') return { grade: '6' };
  if (c.harm === 'permanent severe') return { grade: '5' };
  if (c.harm === 'permanent mild') return { grade: '4' };
  const open = unsaid(c, ['treatment', 'stay', 'harm']);
  if (open) return open;
  if (extra(c) || c.stay === 'prolonged over 48 hours') return { grade: '3' };
  return { grade: c.stay === 'not prolonged' ? '1' : '2' };
}

/**
 * The modified scale splits grade 1 by whether the procedure still succeeded (1a, 1b), and grade 3 by length of stay at
 * a point that was not read: grade 3 stays undecided.
 */
export function cirse2025(
  c: Complication,
  overall: 'successful' | 'partially successful' | 'unsuccessful' | undefined,
): Grade {
  const old = cirse2017(c);
  if (!('grade' in old)) return old;
  if (old.grade === '3')
    return {
      why: message('why.grade-3'),
      oneOf: ['3a', '3b'],
    };
  if (old.grade !== '1') return old;
  if (overall === 'successful') return { grade: '1a' };
  if (overall === 'unsuccessful') return { grade: '1b' };
  return { why: message('why.grade-1'), oneOf: ['1a', '1b'] };
}

/**
 * SIR 2017, from memory: 1 no or nominal therapy; 2 moderate escalation, such as an intervention under sedation, blood
 * products, an unplanned night; 3 marked escalation: more than 24 h of stay, intensive care, general anaesthesia;
 * 4 life-threatening or disabling; 5 death. Where a recorded word spans two grades, both are named.
 */
export function sir2017(c: Complication): Grade {
  if (c.harm === 'death') return { grade: '5' };
  if (c.harm === 'permanent severe') return { grade: '4' };
  const open = unsaid(c, ['treatment', 'stay', 'harm']);
  if (open) return open;
  if (c.treatment === 'intensive care') return { why: message('why.grade-3-4'), oneOf: ['3', '4'] };
  if (
    c.treatment === 'intervention under general anaesthesia' ||
    c.stay === 'prolonged under 48 hours' ||
    c.stay === 'prolonged over 48 hours'
  )
    return { grade: '3' };
  if (
    c.treatment === 'intervention' ||
    c.treatment === 'transfusion' ||
    c.stay === 'prolonged under 24 hours'
  )
    return { grade: '2' };
  if (c.treatment === 'drugs' || c.treatment === 'same session')
    return { why: message('why.grade-1-2'), oneOf: ['1', '2'] };
  return { grade: '1' };
}

/**
 * Clavien–Dindo: I no drug but the simplest; II other drugs, transfusion; IIIa and IIIb intervention without and with
 * general anaesthesia; IVa and IVb failure of one organ and of several; V death.
 */
export function clavienDindo(c: Complication): Grade {
  if (c.harm === 'death') return { grade: 'V' };
  const open = unsaid(c, ['treatment', 'harm']);
  if (open) return open;
  switch (c.treatment) {
    case 'intensive care':
      return {
        why: message('why.grade-iv'),
        oneOf: ['IVa', 'IVb'],
      };
    case 'intervention under general anaesthesia':
      return { grade: 'IIIb' };
    case 'intervention':
      return { grade: 'IIIa' };
    case 'drugs':
    case 'transfusion':
      return { grade: 'II' };
    default:
      return { grade: 'I' };
  }
}
