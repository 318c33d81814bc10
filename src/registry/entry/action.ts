import { type DeviceDetails, isInside, type TallyEntry } from '../../devices/types.js';

/** What happened to a device, in the words of the register. */
export const deviceActions = [
  'implanted',
  'removed',
  'used',
  'opened not used',
  'failed',
  'left from before',
  'retained',
  'not found',
  'unaccounted',
] as const;

export type DeviceAction = (typeof deviceActions)[number];

/** A row of the tally that a registry hears of. */
export interface RegisteredRow {
  readonly details: DeviceDetails;
  readonly entry: TallyEntry;
  readonly action: DeviceAction;
}

/**
 * The rows of a device and its parts that a registry hears of: implants, what was carried in, whatever is inside or may
 * be, and parts that went another way than their device. Wires and needles that came out whole are none of them.
 */
export function registeredRows(details: DeviceDetails, rows: readonly TallyEntry[]): RegisteredRow[] {
  const whole = rows.filter(row => row.part === undefined);
  return rows.flatMap(entry => {
    const matters = entry.part === undefined ? deviceMatters(details, entry) : partMatters(entry, whole);
    return matters ? [{ details, entry, action: actionOf(details, entry) }] : [];
  });
}

const mayBeInside = ({ state }: TallyEntry) =>
  isInside(state) || state === 'unaccounted' || state === 'missing';

function deviceMatters(details: DeviceDetails, entry: TallyEntry): boolean {
  // It went back on the shelf.
  if (entry.state === 'discarded unused unopened') return false;
  return details.implant || details.carried || mayBeInside(entry);
}

/** A thread inside on a drain that is inside is told by the drain. */
function partMatters(entry: TallyEntry, whole: readonly TallyEntry[]): boolean {
  return mayBeInside(entry) && !whole.some(({ state }) => state === entry.state);
}

function actionOf(details: DeviceDetails, { state, part }: TallyEntry): DeviceAction {
  if (state === 'retained unintended') return 'retained';
  if (state === 'unaccounted') return 'unaccounted';
  // Searched for and not found: nobody may call it retained.
  if (state === 'missing') return 'not found';
  if (isInside(state)) return details.carried && part === undefined ? 'left from before' : 'implanted';
  const failed = details.entry.use === 'failed';
  if (state === 'discarded unused opened') return failed ? 'failed' : 'opened not used';
  return details.carried ? 'removed' : failed ? 'failed' : 'used';
}
