import { Temporal } from 'temporal-polyfill';
import type { Tree } from '../record/read.js';
import { isCalendarDate } from '../record/time.js';
import { isGroup, treeIn, valueAt } from '../record/tree.js';

/** What a list shows of a draft. */
export interface DraftHead {
  readonly case?: string;
  readonly patient?: string;
  readonly patientNumber?: string;
  /** What its devices are called and labelled with, for searching. */
  readonly devices?: readonly string[];
}

/** What is kept of devices in the head: it is opened with every list. */
const [MOST_WORDS, MOST_LETTERS] = [60, 60];

/** What a list shows of a draft, as far as it is entered. */
export function headOf(text: string): DraftHead {
  const tree = treeIn(text);
  const at = (...path: (string | number)[]) => {
    const value = valueAt(tree, path);
    return typeof value === 'string' && value !== '' ? value.slice(0, 200) : undefined;
  };
  const [id, number] = [at('case', 'id'), at('patient', 'identifiers', 0, 'value')];
  const parts = [
    at('patient', 'name', 'given') ?? at('patient', 'name', 'given', 0),
    at('patient', 'name', 'family'),
  ];
  const devices = devicesIn(tree);
  const name = at('patient', 'name') ?? (parts.join(' ').trim() || undefined);
  return {
    ...(id !== undefined && { case: id }),
    ...(name !== undefined && { patient: name }),
    ...(number !== undefined && { patientNumber: number }),
    ...(devices.length > 0 && { devices }),
  };
}

/** Words of the devices, each once: kind, name, model, maker, numbers. */
function devicesIn(tree: Tree | undefined): string[] {
  const devices = valueAt(tree, ['devices']);
  if (!isGroup(devices)) return [];
  const fields = ['kind', 'name', 'model', 'maker', 'lot', 'serial', 'di', 'udi'];
  const words = Object.values(devices).flatMap(device =>
    [['kind'], ['name'], ['model'], ['maker'], ...fields.map(name => ['label', name])].flatMap(path => {
      const value = valueAt(device, path);
      return typeof value === 'string' && value !== '' ? [value.slice(0, MOST_LETTERS)] : [];
    }),
  );
  return [...new Set(words)].slice(0, MOST_WORDS);
}

/** The day of the case, `YYYY-MM-DD`; undefined where none is entered. */
export function dayOf(text: string): string | undefined {
  const date = valueAt(treeIn(text), ['case', 'date']);
  return typeof date === 'string' && isCalendarDate(date) ? date : undefined;
}

/** The day at a place, `YYYY-MM-DD`; by UTC where no zone is known. */
export function dayAt(at: number, timeZone = 'UTC'): string {
  return Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(timeZone).toPlainDate().toString();
}
