import { kindNamed } from '../../../devices/kinds.js';
import type { DeviceFamily } from '../../../devices/types.js';
import { inBaseUnit, type Quantity, readQuantity, readSize } from '../../../record/quantity.js';
import { wordsOf } from '../../../trade/words.js';
import type { ListedDevice } from '../types.js';

/** A device on the table while lines are read. */
export interface OnTable {
  readonly key: string;
  readonly kind: string;
  readonly description: string | undefined;
  readonly family: DeviceFamily | undefined;
  readonly peels: boolean;
  readonly count: number;
  readonly parts: Readonly<Record<string, string>>;
  /** Words of its key, kind, description and family, as they are compared. */
  readonly own: ReadonlySet<string>;
  /** Those, and words of other names of its kind. */
  readonly words: ReadonlySet<string>;
  /** Diameters and lengths that are known of it. */
  readonly measures: readonly Quantity[];
  /** Proposed by a line. */
  readonly proposed: boolean;
  inside: number;
  /** It was in the patient at some time. */
  used: boolean;
}

/** What people call a family, its own name aside. Common practice, no source. */
const familyWords: Partial<Record<DeviceFamily, string>> = {
  guidewire: 'wire guidewire gw',
  catheter: 'catheter cath',
  sheath: 'sheath introducer',
  needle: 'needle',
  balloon: 'balloon bal',
  stent: 'stent',
  drain: 'drain catheter tube pigtail',
  tube: 'tube',
  filter: 'filter',
  dilator: 'dilator dil',
  closure: 'closure device',
  retrieval: 'snare',
};

/** Things that are called by each other's names. Common practice, no source. */
const calledAlike: readonly (readonly string[])[] = [
  ['particle', 'bead', 'microsphere', 'sphere'],
  ['coil', 'microcoil'],
];

/** Families that a bare word means before any other. */
const familyOfWord: ReadonlyMap<string, DeviceFamily> = new Map(
  (
    [
      ['wire', 'guidewire'],
      ['guidewire', 'guidewire'],
      ['gw', 'guidewire'],
      ['catheter', 'catheter'],
      ['cath', 'catheter'],
      ['sheath', 'sheath'],
      ['needle', 'needle'],
      ['balloon', 'balloon'],
      ['stent', 'stent'],
      ['drain', 'drain'],
      ['tube', 'tube'],
      ['filter', 'filter'],
      ['dilator', 'dilator'],
    ] as const
  ).map(([word, family]) => [wordsOf(word)[0] ?? word, family]),
);

/** @param word as `wordsOf` gives it */
export const familyNamed = (word: string): DeviceFamily | undefined => familyOfWord.get(word);

/**
 * Whether words can stand for a device. A bare `balloon` is none of a stent that a balloon opens, whatever its other
 * names have in them.
 */
export function canBeCalled(device: OnTable, words: readonly string[]): boolean {
  const head = words.at(-1) ?? '';
  return (
    words.every(word => hasWord(device, word)) && (familyNamed(head) === undefined || device.own.has(head))
  );
}

/** `micro wire` is a microwire, and a micro guidewire too. */
export const hasWord = ({ words }: OnTable, word: string): boolean =>
  words.has(word) ||
  (/^micro./.test(word) && words.has('micro') && (words.has(word.slice(5)) || words.has(word)));

/** Any device as it is listed, with the words and measures that lines may use for it. */
export function onTable(device: ListedDevice, proposed = false): OnTable {
  const row = kindNamed(device.kind)?.row;
  const family = device.family ?? row?.family;
  const called = family ? (familyWords[family] ?? '') : '';
  const own = withShort(
    wordsOfAll([device.key, device.kind, device.description ?? '', row?.name ?? '', called]),
  );
  const size = device.size === undefined ? undefined : readSize(device.size);
  const measures = [device.diameter, device.length].flatMap(text => {
    const read = text === undefined ? undefined : readQuantity(text, ['length', 'calibre']);
    return read?.ok ? [read.value] : [];
  });
  if (size?.ok)
    measures.push(...[size.value.diameter, size.value.upTo, size.value.length].flatMap(one => one ?? []));
  return {
    key: device.key,
    kind: device.kind,
    description: device.description,
    family,
    peels: row?.traits.includes('peelable') ?? false,
    count: device.count ?? 1,
    parts: device.parts ?? {},
    own: new Set(own),
    words: withLike([...own, ...wordsOfAll(row?.aliases ?? [])]),
    measures,
    proposed,
    inside: device.inside ?? 0,
    used: device.used ?? (device.inside ?? 0) > 0,
  };
}

/** Words of names, those of keys such as `highPressure` apart. */
const wordsOfAll = (names: readonly string[]) =>
  names.flatMap(name => [...wordsOf(name), ...wordsOf(name.replace(/([a-z])([A-Z])/g, '$1 $2'))]);

/** How long words are cut short. Common practice, no source. */
const shortFor: Readonly<Record<string, string>> = {
  microcatheter: 'micro',
  nephrostomy: 'neph',
  nasogastric: 'ng',
  hydrophilic: 'hydro',
  coaxial: 'coax',
  pigtail: 'pig',
  catheter: 'cath',
  gastrostomy: 'gastro',
  dilator: 'dil',
  balloon: 'bal',
};

const withShort = (words: readonly string[]): string[] => [
  ...words,
  ...words.flatMap(word => (/^micro(?:catheter|wire|guidewire)$/.test(word) ? ['micro'] : [])),
  ...words.flatMap(word => (Object.hasOwn(shortFor, word) ? [shortFor[word] ?? word] : [])),
];

const withLike = (words: readonly string[]): ReadonlySet<string> =>
  new Set([...words, ...calledAlike.filter(group => group.some(one => words.includes(one))).flat()]);

/** Whether one of the measures of a device is this: figures alone where no unit was said. */
export function hasMeasure(device: OnTable, value: string, unit?: string): boolean {
  if (unit === undefined)
    return device.measures.some(own => Number(own.value) === Number(value) || asMillimetres(own, value));
  const read = readQuantity(`${value} ${unit}`, ['length', 'calibre']);
  if (!read.ok) return false;
  const base = inBaseUnit(read.value);
  return device.measures.some(own => {
    if (own.code === read.value.code) return Number(own.value) === Number(value);
    const other = inBaseUnit(own);
    return base !== undefined && other !== undefined && base.minus(other).abs().lessThan(0.02);
  });
}

/** A balloon of 4 cm is called a 40. */
const asMillimetres = (own: Quantity, value: string) =>
  own.code === 'cm' && Number(own.value) * 10 === Number(value);

/** A key of letters and digits that no device has: `sheath5`. */
export function newKey(kind: string, size: string | undefined, taken: ReadonlySet<string>): string {
  const family = kindNamed(kind)?.row.family;
  const last =
    kind
      .split(/[^A-Za-z]+/)
      .filter(one => one.length > 1)
      .at(-1) ?? 'device';
  const word =
    family && familyNamed(wordsOf(family)[0] ?? '') && family !== 'catheter' ? family : last.toLowerCase();
  const base = `${word}${(size?.match(/\d+/)?.[0] ?? '').slice(0, 3)}`;
  if (!taken.has(base)) return base;
  let n = 2;
  while (taken.has(`${base}-${n}`)) n++;
  return `${base}-${n}`;
}
