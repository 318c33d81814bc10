import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { lastDay } from './dates.js';

/** A device of a case as far as its label matters; from a decoded label, from typing, or both. */
export interface LabelledDevice {
  /** The device's key in the record. */
  readonly key: string;
  /** Path of the device in the record, for findings. */
  readonly path: string;
  readonly line?: number;
  readonly di?: string;
  readonly lot?: string;
  readonly serial?: string;
  /** YYYY-MM-DD, or YYYY-MM for the end of that month. */
  readonly expires?: string;
  readonly distinct?: string;
  /** Meant to stay in the body. */
  readonly implant?: boolean;
  /** In the patient when the case ends. */
  readonly leftInSitu?: boolean;
  /** Opened or used in this case; a device put back unopened is not called expired. */
  readonly used?: boolean;
}

/** The day of the case in its own zone, and what the site sets. */
export interface LabelCaseContext {
  /** YYYY-MM-DD, the calendar day where the case was done. */
  readonly date: string;
  /** How many days before expiry a device is pointed out; 30 unless the site says otherwise. */
  readonly expiresSoonDays?: number;
  /** Devices of earlier cases, to find a serial number that comes again. */
  readonly earlier?: readonly {
    readonly case: string;
    readonly di: string;
    readonly serial: string;
    readonly distinct?: string;
  }[];
}

/** Common practice, no source. */
const soonDays = 30;

/** What the labels of a case say together: expiry, repeated serial numbers, missing lots and identifiers. */
export function labelCaseFindings(devices: readonly LabelledDevice[], context: LabelCaseContext): Finding[] {
  return [
    ...devices.flatMap(device => expiryFindings(device, context)),
    ...serialFindings(devices, context),
    ...devices.flatMap(missingFindings),
  ];
}

function place(device: LabelledDevice, part?: string): { path: string; options: { line?: number } } {
  const path = part === undefined ? device.path : `${device.path}.${part}`;
  return { path, options: device.line === undefined ? {} : { line: device.line } };
}

function expiryFindings(device: LabelledDevice, context: LabelCaseContext): Finding[] {
  if (device.expires === undefined || device.used === false) return [];
  const expires = lastDay(device.expires);
  const { path, options } = place(device, 'label');
  if (expires < context.date) {
    return [finding('label.expired', path, { device: device.key, expires, date: context.date }, options)];
  }
  const days = context.expiresSoonDays ?? soonDays;
  if (daysBetween(context.date, expires) > days) return [];
  return [finding('label.expires-soon', path, { device: device.key, expires, days: `${days}` }, options)];
}

/** Whole days from one YYYY-MM-DD to another. */
function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);
}

/** Lots repeat rightly; an identifier with a serial number (and donation, if any) names one device. */
function serialFindings(devices: readonly LabelledDevice[], context: LabelCaseContext): Finding[] {
  const out: Finding[] = [];
  const first = new Map<string, LabelledDevice>();
  const elsewhere = new Map(
    context.earlier?.map(e => [JSON.stringify([e.di, e.serial, e.distinct]), e.case]),
  );
  for (const device of devices) {
    const { di, serial } = device;
    if (di === undefined || serial === undefined) continue;
    const { path, options } = place(device, 'label');
    const key = JSON.stringify([di, serial, device.distinct]);
    const other = first.get(key);
    if (other !== undefined) {
      out.push(
        finding('label.serial-twice', path, { device: device.key, other: other.key, di, serial }, options),
      );
    } else first.set(key, device);
    const earlier = elsewhere.get(key);
    if (earlier !== undefined) {
      const params = { device: device.key, di, serial, case: earlier };
      out.push(finding('label.serial-other-case', path, params, options));
    }
  }
  return out;
}

function missingFindings(device: LabelledDevice): Finding[] {
  const out: Finding[] = [];
  const { path, options } = place(device);
  if (device.implant === true && device.lot === undefined && device.used !== false) {
    const traced = device.serial !== undefined;
    const params = { device: device.key, alternative: traced ? message('scan.serialNames') : '' };
    const severity = traced ? 'information' : 'warning';
    out.push(finding('label.lot-missing', path, params, { ...options, severity }));
  }
  if (device.leftInSitu === true && device.di === undefined) {
    out.push(finding('label.identifier-missing', path, { device: device.key }, options));
  }
  return out;
}
