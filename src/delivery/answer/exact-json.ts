import { type ExactJson, ExactNumber, type ExactObject } from '../../json/parse.js';
import { writeFhirJson } from '../../json/write.js';

export { type ExactJson, type ExactNumber, type ExactObject, parseExact } from '../../json/parse.js';

/** Writes JSON with each number's digits as they were read. */
export const exactText = (value: object | ExactJson): string => writeFhirJson(value, 0);

export function isExactNumber(value: ExactJson | undefined): value is ExactNumber {
  return value instanceof ExactNumber;
}

export function isExactObject(value: ExactJson | undefined): value is ExactObject {
  return (
    typeof value === 'object' && value !== null && !Array.isArray(value) && !(value instanceof ExactNumber)
  );
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
