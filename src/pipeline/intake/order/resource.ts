import {
  type ExactJson,
  type ExactObject,
  isExactNumber,
  isExactObject,
  listAt,
  objectAt,
  textAt,
} from '../../../delivery/answer/exact-json.js';

/** A number of a resource. */
export interface HeldNumber {
  readonly system?: string;
  readonly value: string;
  /** Code of what kind of number it is. */
  readonly kind?: string;
}

/** What was entered in error is as if it were not there. */
export const isVoid = (resource: ExactObject): boolean =>
  textAt(resource, 'status') === 'entered-in-error' ||
  codeAt(resource, 'verificationStatus') === 'entered-in-error';

/** `TYPE/ID` of a reference to a type, relative or whole; undefined for anything else, a contained resource too. */
export function referenceTo(resource: ExactObject, field: string, type: string): string | undefined {
  const reference = textAt(objectAt(resource, field), 'reference');
  const [, id] =
    new RegExp(`(?:^|/)${type}/([A-Za-z0-9.-]{1,64})(?:/_history/[^/]+)?$`).exec(reference ?? '') ?? [];
  return id === undefined ? undefined : `${type}/${id}`;
}

/** Numbers that are in use. */
export function numbersAt(resource: ExactObject): readonly HeldNumber[] {
  return listAt(resource, 'identifier').flatMap(one => {
    const value = textAt(one, 'value')?.trim();
    if (value === undefined || value === '' || textAt(one, 'use') === 'old') return [];
    if (textAt(objectAt(one, 'period'), 'end') !== undefined) return [];
    const system = textAt(one, 'system')?.trim();
    const kind = codings(objectAt(one, 'type'))[0]?.code;
    return [{ value, ...(system !== undefined && { system }), ...(kind !== undefined && { kind }) }];
  });
}

interface HeldCoding {
  readonly system?: string;
  readonly code: string;
  readonly display?: string;
}

/** Codes of a concept. */
export const codings = (concept: ExactJson | undefined): readonly HeldCoding[] =>
  listAt(concept, 'coding').flatMap(one => {
    const code = textAt(one, 'code');
    if (code === undefined) return [];
    const [system, display] = [textAt(one, 'system'), textAt(one, 'display')];
    return [{ code, ...(system !== undefined && { system }), ...(display !== undefined && { display }) }];
  });

/** The first code of a concept under a field. */
export const codeAt = (resource: ExactObject, field: string): string | undefined =>
  codings(objectAt(resource, field))[0]?.code;

/** A concept in words: as somebody wrote it, else as a code says. */
export function wordsOf(concept: ExactJson | undefined): string | undefined {
  const words =
    textAt(concept, 'text') ?? codings(concept).find(({ display }) => display !== undefined)?.display;
  const line = words?.replace(/\s+/g, ' ').trim();
  return line === '' ? undefined : line;
}

export const conceptAt = (resource: ExactObject, field: string): string | undefined =>
  wordsOf(objectAt(resource, field));

/** A FHIR dateTime or instant as a record has it: no fractions of a second, which nobody typed. */
export const timeAt = (resource: ExactJson | undefined, field: string): string | undefined =>
  textAt(resource, field)?.replace(/(T\d{2}:\d{2}:\d{2})\.\d+/, '$1');

/** A quantity as its digits and its unit, as it is printed and by its code; none where it says more or less than. */
export function quantityTexts(quantity: ExactObject | undefined): readonly string[] {
  const value = quantity?.['value'];
  if (!quantity || !isExactNumber(value) || textAt(quantity, 'comparator') !== undefined) return [];
  const units = [textAt(quantity, 'unit'), textAt(quantity, 'code')].flatMap(unit => unit ?? []);
  return units.length === 0
    ? [value.value]
    : units.map(unit => (unit === '1' ? value.value : `${value.value} ${unit}`));
}

/** When an observation was made. */
export const madeAt = (resource: ExactObject): string | undefined =>
  timeAt(resource, 'effectiveDateTime') ??
  timeAt(resource, 'effectiveInstant') ??
  timeAt(objectAt(resource, 'effectivePeriod'), 'end');

/** The name that a person goes by, as it is written in one line; with `Dr` and the like where asked for. */
export function nameAt(resource: ExactObject, withPrefix = false): string | undefined {
  const names = listAt(resource, 'name').filter(isExactObject);
  const best =
    names.find(name => textAt(name, 'use') === 'official') ??
    names.find(
      name => !['old', 'maiden', 'nickname', 'anonymous', 'temp'].includes(textAt(name, 'use') ?? ''),
    ) ??
    names[0];
  if (!best) return undefined;
  const words = (field: string) => {
    const value = best[field];
    return typeof value === 'string' ? [value] : listAt(best, field).filter(word => typeof word === 'string');
  };
  const parts = [
    ...(withPrefix ? words('prefix') : []),
    ...words('given'),
    ...words('family'),
    ...words('suffix'),
  ]
    .join(' ')
    .trim();
  return parts !== '' ? parts : textAt(best, 'text')?.trim();
}
