import { sameCaseKind } from '../trade/cases/table.js';
import { sameDeviceKind } from '../trade/devices/table.js';
import { drugsIn } from '../trade/drugs/table.js';

/** Case, hyphens and runs of blanks do not tell names apart. */
export const plainName = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[\s-]+/g, ' ')
    .trim();

/** The entry of a table by kind of case: under the kind as written, else under another name of the same kind. */
export function byCaseKind<T>(table: Readonly<Record<string, T>>, kind: string): T | undefined {
  const rows = Object.entries(table);
  const own = rows.find(([key]) => plainName(key) === plainName(kind));
  return (own ?? rows.find(([key]) => sameCaseKind(key, kind)))?.[1];
}

/** Whether a rule about a kind of device is about this one. */
export const isKind = (wanted: string, kind: string): boolean =>
  plainName(wanted) === plainName(kind) || sameDeviceKind(wanted, kind);

interface Entry<T> {
  readonly name: string;
  readonly entry: T;
}

/**
 * The entry of a table of drugs: under another name of the same drug (`lignocaine` for `lidocaine`), else the longest
 * name that stands as whole words in the text (`enoxaparin` in `Enoxaparin sodium`).
 */
export function byDrugName<T>(table: Readonly<Record<string, T>>, text: string): Entry<T> | undefined {
  const words = ` ${plainName(text)} `;
  const rows = Object.entries(table);
  const [within] = rows
    .filter(([key]) => words.includes(` ${plainName(key)} `))
    .sort(([a], [b]) => b.length - a.length);
  const wanted = namesOf(text);
  const same = wanted === '' ? undefined : rows.find(([key]) => namesOf(key) === wanted);
  const found = same ?? within;
  return found && { name: found[0], entry: found[1] };
}

const namesOf = (text: string) =>
  drugsIn(text)
    .map(row => row.name)
    .sort()
    .join(' + ');
