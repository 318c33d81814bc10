import type { CaseRecord } from '../record/schema/record.js';
import type { Moment } from '../record/time.js';

/** The first event by which anything enters the patient. */
export function firstAccess(record: CaseRecord): Moment | undefined {
  return (record.events ?? [])
    .filter(event => event.do === 'puncture' || event.do === 'insert' || event.do === 'exchange')
    .map(event => event.at)
    .sort((a, b) => a.epoch - b.epoch)[0];
}

/** The last event of the case. */
export function lastEvent(record: CaseRecord): Moment | undefined {
  return [...(record.events ?? [])].sort((a, b) => a.at.epoch - b.at.epoch).at(-1)?.at;
}

/** `1 h 25 min`, `35 min`; whole minutes. */
export function spanText(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  return hours === 0 ? `${minutes} min` : `${hours} h ${minutes % 60} min`;
}

/** Hours to one decimal, cut and not rounded, so that 11.98 h never reads as the 12.0 h that were asked for. */
export const hoursText = (hours: number): string => (Math.floor(hours * 10 + 1e-6) / 10).toFixed(1);
