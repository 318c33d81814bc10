import { decodeScans } from '../../devices/labels/scans.js';
import type { DecodedLabel, LabelOptions } from '../../devices/labels/types.js';
import type { Finding } from '../../findings/finding.js';
import { deviceTable } from '../../trade/devices/table.js';

/** One device as it was scanned: the symbols of its label, and what it is where somebody said so. */
export interface ScannedDevice {
  readonly symbols: readonly string[];
  readonly label: DecodedLabel;
  /** How many with this same label. */
  readonly count: number;
  readonly kind?: string;
}

/** What was scanned so far. */
export interface ScanTray {
  readonly devices: readonly ScannedDevice[];
  /** Symbols without a device identifier that came before the one that has it. */
  readonly waiting: readonly string[];
  /** Place of the device whose label came again: it is not counted until somebody says so. */
  readonly asked?: number;
  /** The tray as it was before, to take back to. */
  readonly before?: ScanTray;
}

/** What a scan or a typed line came to. `device` is the place in `devices`, from 0. */
export type ScanOutcome =
  | { readonly kind: 'new' | 'joined' | 'again' | 'named'; readonly device: number }
  /** The same label came again. With a serial number it is the same device; without one it may be another one alike. */
  | { readonly kind: 'asks'; readonly device: number; readonly serial: boolean }
  | { readonly kind: 'waits' | 'not-counted' | 'taken-back' | 'nothing' }
  | { readonly kind: 'not-read'; readonly findings: readonly Finding[] };

/** What a tray is read with. */
export interface ScanOptions extends LabelOptions {
  /** Serial numbers that the record has already, as `DI SERIAL`. */
  readonly known?: ReadonlySet<string>;
}

export const emptyTray: ScanTray = { devices: [], waiting: [] };

interface Step {
  readonly tray: ScanTray;
  readonly outcome: ScanOutcome;
}

/** Lines that answer or take back, and are neither label nor kind. */
const YES = /^(?:y|yes)$/i;
const NO = /^(?:n|no)$/i;
const UNDO = /^undo$/i;
/** No symbol and no name of a device is longer. */
const LONGEST = 1_000;

/**
 * One line more: a symbol from a scanner, `yes` or `no` to a question, `undo`, or what the device scanned last is.
 * Two symbols of one label become one device, in whichever order they come.
 */
export function scanned(tray: ScanTray, line: string, options: ScanOptions): Step {
  const text = line.replace(/[\r\n]+$/, '');
  if (text.trim() === '') return { tray, outcome: { kind: 'nothing' } };
  if (tray.asked !== undefined && YES.test(text.trim())) return counted(tray, tray.asked);
  const { asked: _, ...open } = tray;
  if (NO.test(text.trim())) return { tray: open, outcome: { kind: 'not-counted' } };
  if (UNDO.test(text.trim()))
    return { tray: tray.before ?? emptyTray, outcome: { kind: tray.before ? 'taken-back' : 'nothing' } };
  if (text.length > LONGEST) return { tray: open, outcome: { kind: 'not-read', findings: [] } };
  const step = asKind(open, text) ?? asSymbol(open, text, options);
  return step.tray === open ? step : { ...step, tray: { ...step.tray, before: open } };
}

/** True when a line answers, takes back or names, and a label is not meant. */
function asKind(tray: ScanTray, text: string): Step | undefined {
  const row = deviceTable.find(text.trim());
  const last = tray.devices.length - 1;
  const device = tray.devices[last];
  if (!row || !device) return undefined;
  return {
    tray: replaced(tray, last, { ...device, kind: text.trim() }),
    outcome: { kind: 'named', device: last },
  };
}

function asSymbol(tray: ScanTray, text: string, options: ScanOptions): Step {
  const [alone] = decodeScans([text], options);
  if (!alone || alone.issuer === undefined)
    return { tray, outcome: { kind: 'not-read', findings: alone?.findings ?? [] } };
  if (alone.di === undefined) return production(tray, text, options);
  const [joined, ...others] = decodeScans([...tray.waiting, text], options);
  const whole = joined && others.length === 0 && joined.di !== undefined ? joined : alone;
  const symbols = whole === alone ? [text] : [...tray.waiting, text];
  // What waited belongs to nothing that came: it would be put beside the wrong device later.
  const rest = { ...tray, waiting: [] };
  return device(rest, symbols, whole, options);
}

/** A symbol without device identifier belongs to the device scanned last, where that has none of it yet; else it waits. */
function production(tray: ScanTray, text: string, options: ScanOptions): Step {
  const last = tray.devices.length - 1;
  const before = tray.devices[last];
  const isBare = before && before.label.lot === undefined && before.label.serial === undefined;
  const [joined, ...others] = isBare ? decodeScans([...before.symbols, text], options) : [];
  if (before && joined?.di !== undefined && others.length === 0 && before.count === 1) {
    const { devices } = tray;
    const rest = { ...tray, devices: devices.slice(0, -1) };
    const step = device(rest, [...before.symbols, text], joined, options, before.kind);
    return step.outcome.kind === 'new' ? { ...step, outcome: { kind: 'joined', device: last } } : step;
  }
  if (tray.waiting.includes(text)) return { tray, outcome: { kind: 'waits' } };
  return { tray: { ...tray, waiting: [...tray.waiting, text] }, outcome: { kind: 'waits' } };
}

const serialOf = ({ di = '', serial }: DecodedLabel): string | undefined =>
  serial === undefined ? undefined : `${di} ${serial}`;

function device(
  tray: ScanTray,
  symbols: readonly string[],
  label: DecodedLabel,
  { known }: ScanOptions,
  kind?: string,
): Step {
  const serial = serialOf(label);
  const same = tray.devices.findIndex(({ label: other }) =>
    serial === undefined
      ? other.di === label.di && other.lot === label.lot && other.serial === undefined
      : serialOf(other) === serial,
  );
  if (same >= 0) {
    return {
      tray: { ...tray, asked: same },
      outcome: { kind: 'asks', device: same, serial: serial !== undefined },
    };
  }
  if (serial !== undefined && known?.has(serial))
    return { tray, outcome: { kind: 'asks', device: -1, serial: true } };
  const devices = [...tray.devices, { symbols, label, count: 1, ...(kind !== undefined && { kind }) }];
  return { tray: { ...tray, devices }, outcome: { kind: 'new', device: devices.length - 1 } };
}

/** One more alike; a serial number stands for one device, however often it is scanned. */
function counted(tray: ScanTray, at: number): Step {
  const { asked: _, ...open } = tray;
  const one = tray.devices[at];
  if (!one || one.label.serial !== undefined) return { tray: open, outcome: { kind: 'not-counted' } };
  const more = { ...replaced(open, at, { ...one, count: one.count + 1 }), before: open };
  return { tray: more, outcome: { kind: 'again', device: at } };
}

const replaced = (tray: ScanTray, at: number, one: ScannedDevice): ScanTray => ({
  ...tray,
  devices: tray.devices.map((other, n) => (n === at ? one : other)),
});
