import { isLosslessNumber, parse, stringify } from 'lossless-json';

/** JSON in which a number keeps the digits it was written with. */
export type ExactJson = null | boolean | string | ExactNumber | readonly ExactJson[] | ExactObject;
export interface ExactObject {
  readonly [key: string]: ExactJson;
}
export interface ExactNumber {
  readonly isLosslessNumber: boolean;
  readonly value: string;
}

/** Parses JSON and keeps each number's digits. @throws SyntaxError for text that is not JSON. */
export function parseExact(text: string): ExactJson {
  const value = parse(text);
  if (!isExact(value)) throw new SyntaxError('not JSON');
  return value;
}

/** Writes JSON with each number's digits as they were read. */
export function exactText(value: unknown): string {
  const text = stringify(value);
  if (text === undefined) throw new TypeError('nothing to write');
  return text;
}

/** The parser gives nothing but JSON values, so the kind of the outermost one decides. */
function isExact(value: unknown): value is ExactJson {
  return value !== undefined && typeof value !== 'function';
}

export function isExactNumber(value: ExactJson | undefined): value is ExactNumber {
  return isLosslessNumber(value);
}

export function isExactObject(value: ExactJson | undefined): value is ExactObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && !isLosslessNumber(value);
}

export function isExactArray(value: ExactJson | undefined): value is readonly ExactJson[] {
  return Array.isArray(value);
}

/** The string under a key, undefined when it is anything else. */
export function textAt(value: ExactJson | undefined, key: string): string | undefined {
  const found = isExactObject(value) ? value[key] : undefined;
  return typeof found === 'string' ? found : undefined;
}

/** The list under a key, empty when it is anything else. */
export function listAt(value: ExactJson | undefined, key: string): readonly ExactJson[] {
  const found = isExactObject(value) ? value[key] : undefined;
  return isExactArray(found) ? found : [];
}

/** The object under a key, undefined when it is anything else. */
export function objectAt(value: ExactJson | undefined, key: string): ExactObject | undefined {
  const found = isExactObject(value) ? value[key] : undefined;
  return isExactObject(found) ? found : undefined;
}

/** The text of a Bundle whose entries were rewritten. */
export function withEntries(
  bundle: ExactJson,
  change: (entry: ExactObject, index: number) => ExactJson,
): string {
  const entry = listAt(bundle, 'entry').map((item, index) =>
    isExactObject(item) ? change(item, index) : item,
  );
  return exactText(isExactObject(bundle) ? { ...bundle, entry } : bundle);
}
