import type { CaseFacts, DeviceFact } from '../../src/register/facts.js';

export const SYSTEM = 'https://ids.harbour.example/cases';
export const options = { person: 'p1', ownSystem: SYSTEM };

/** A drain that stays, unless said otherwise. */
export function device(key: string, more: Partial<DeviceFact> = {}): DeviceFact {
  const count = more.count ?? 1;
  const out = more.out ?? 0;
  return {
    device: key,
    name: `8.5 Fr drainage catheter`,
    kind: 'drainage catheter',
    family: 'drain',
    retrievable: false,
    count,
    inside: count - out - (more.open ?? 0),
    out,
    open: 0,
    plans: [],
    ...more,
  };
}

/** A final first version of a case, unless said otherwise. */
export function caseOf(
  value: string,
  date: string,
  devices: readonly DeviceFact[],
  more: Partial<CaseFacts> = {},
): CaseFacts {
  const person = { system: 'https://ids.harbour.example/mrn', value: '4711' };
  return {
    case: { system: SYSTEM, value },
    version: 1,
    status: 'final',
    digest: `sha256:${value}-${more.version ?? 1}`,
    date,
    person,
    numbers: [person],
    devices,
    ...more,
  };
}
