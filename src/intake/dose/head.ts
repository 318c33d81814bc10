import { isCalendarDate } from '../../record/time.js';
import { concepts } from './concepts.js';
import { type ContentItem, childOf, type DicomSet, itemsOf, textOf } from './content.js';
import { known } from './figures.js';
import type { DoseHead } from './report.js';

/** Header of a report: patient, study, series and equipment modules, and who observed (TID 1004). */
export function headOf(set: DicomSet, root: ContentItem, foreign: boolean): DoseHead {
  const text = (tag: string) => textOf(set, tag, foreign);
  const observed = (code: string) => childOf(root, code)?.text;
  const [name, ...otherNames] = namesOf(text('00100010'));
  return known<DoseHead>({
    instance: text('00080018'),
    study: text('0020000D'),
    accession: text('00080050'),
    patient: {
      ...known<Omit<DoseHead['patient'], 'otherNames'>>({
        id: text('00100020'),
        name,
        birthDate: dayOf(text('00100030')),
        sex: sexes[text('00100040') ?? ''],
      }),
      otherNames,
    },
    at: momentOf(text('00080023'), text('00080033'), text('00080201')),
    system: known<DoseHead['system']>({
      manufacturer: text('00080070') ?? observed(concepts.observerMaker),
      model: text('00081090') ?? observed(concepts.observerModel),
      station: text('00081010') ?? observed(concepts.observerName),
      serial: text('00181000') ?? observed(concepts.observerSerial),
      observer: observed(concepts.observerUid),
    }),
    predecessors: itemsOf(set, '0040A360')
      .flatMap(study => itemsOf(study, '00081115'))
      .flatMap(series => itemsOf(series, '00081199'))
      .flatMap(instance => textOf(instance, '00081155') ?? []),
  });
}

const sexes: Readonly<Record<string, 'female' | 'male' | 'other'>> = { F: 'female', M: 'male', O: 'other' };

/** `Family^Given^Middle^Prefix^Suffix` in up to three writings (PS3.5, 6.2.1), each in the order it is said. */
function namesOf(written: string | undefined): string[] {
  return (written ?? '')
    .split('=')
    .map(group => {
      const [family, given, middle, prefix, suffix] = group.split('^').map(part => part.trim());
      return [prefix, given, middle, family, suffix].filter(part => part).join(' ');
    })
    .filter(name => name !== '');
}

/** `20240314` as `2024-03-14`. */
function dayOf(text: string | undefined): string | undefined {
  const parts = /^(\d{4})\.?(\d{2})\.?(\d{2})$/.exec(text ?? '');
  const day = parts?.slice(1).join('-');
  return day !== undefined && isCalendarDate(day) ? day : undefined;
}

/** Date, time and offset as ISO 8601; the day alone where the time cannot be read. */
function momentOf(date?: string, time?: string, zone?: string): string | undefined {
  const day = dayOf(date);
  if (day === undefined) return undefined;
  const [, h, m, s = '00'] =
    /^([01]\d|2[0-3]):?([0-5]\d)(?::?([0-5]\d))?(?:\.\d{1,6})?$/.exec(time ?? '') ?? [];
  const [, sign, hours, minutes] = /^([+-])(0\d|1[0-4])([0-5]\d)$/.exec(zone ?? '') ?? [];
  if (h === undefined) return day;
  return `${day}T${h}:${m}:${s}${sign === undefined ? '' : `${sign}${hours}:${minutes}`}`;
}
