/** JSON kind of each primitive type; all others are strings. */
const jsonKinds: Readonly<Record<string, 'number' | 'boolean'>> = {
  boolean: 'boolean',
  decimal: 'number',
  integer: 'number',
  positiveInt: 'number',
  unsignedInt: 'number',
};

/** What JSON kind a primitive of `type` has. */
export function jsonKindOf(type: string): 'string' | 'number' | 'boolean' {
  return jsonKinds[type] ?? 'string';
}

const INTEGER = /^-?(?:0|[1-9]\d*)$/;
const DECIMAL = /^-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?$/;
const YEAR = '(\\d{4})';
const ZONE = '(Z|[+-](?:(?:0\\d|1[0-3]):[0-5]\\d|14:00))';
const CLOCK = '([01]\\d|2[0-3]):([0-5]\\d):([0-5]\\d|60)(\\.\\d+)?';
const DATE = new RegExp(`^${YEAR}(?:-(0[1-9]|1[0-2])(?:-(0[1-9]|[12]\\d|3[01]))?)?$`);
const DATE_TIME = new RegExp(
  `^${YEAR}(?:-(0[1-9]|1[0-2])(?:-(0[1-9]|[12]\\d|3[01])(?:T${CLOCK}${ZONE})?)?)?$`,
);
const INSTANT = new RegExp(`^${YEAR}-(0[1-9]|1[0-2])-(0[1-9]|[12]\\d|3[01])T${CLOCK}${ZONE}$`);
const TIME = new RegExp(`^${CLOCK}$`);
/** 1 at the code of each character of the base64 alphabet: a loop over it is several times as fast as a pattern. */
const BASE64 = new Uint8Array(128);
for (const letter of 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/') {
  BASE64[letter.charCodeAt(0)] = 1;
}
const CODE = /^[^\s]+(?:[\s][^\s]+)*$/;
const ID = /^[A-Za-z0-9\-.]{1,64}$/;
const OID = /^urn:oid:[0-2](?:\.(?:0|[1-9]\d*))+$/;
const UUID = /^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters FHIR forbids in strings
const FORBIDDEN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f]/;
const LARGEST = 2_147_483_647;

/**
 * What is wrong with the lexical form of a primitive, or nothing. `raw` is the value as written: for
 * numbers the digits of the JSON text. Source: the R4 datatypes page, primitive types.
 */
export function primitiveProblem(type: string, raw: string): string | undefined {
  switch (type) {
    case 'boolean':
    case 'xhtml':
      return undefined;
    case 'decimal':
      return DECIMAL.test(raw) ? undefined : 'expected a decimal number';
    case 'integer':
      return integer(raw, -LARGEST - 1);
    case 'unsignedInt':
      return integer(raw, 0);
    case 'positiveInt':
      return integer(raw, 1);
    case 'date':
      return calendar(DATE.exec(raw), 'expected YYYY, YYYY-MM or YYYY-MM-DD');
    case 'dateTime':
      return calendar(
        DATE_TIME.exec(raw),
        'expected YYYY, YYYY-MM, YYYY-MM-DD or YYYY-MM-DDThh:mm:ss with Z or an offset',
      );
    case 'instant':
      return calendar(INSTANT.exec(raw), 'expected YYYY-MM-DDThh:mm:ss with Z or an offset');
    case 'time':
      return TIME.test(raw) ? undefined : 'expected hh:mm:ss without an offset';
    case 'base64Binary':
      return isBase64(raw) || isBase64(raw.replace(/[ \t\r\n]/g, '')) ? undefined : 'expected base64';
    case 'code':
      return CODE.test(raw) && !/\s{2}|[^\S ]/.test(raw)
        ? undefined
        : 'expected no space at the ends and single spaces inside';
    case 'id':
      return ID.test(raw) ? undefined : 'expected 1 to 64 of A-Z, a-z, 0-9, - and .';
    case 'oid':
      return OID.test(raw) ? undefined : 'expected urn:oid: and an OID';
    case 'uuid':
      return UUID.test(raw) ? undefined : 'expected urn:uuid: and a UUID in lower case';
    case 'uri':
    case 'url':
    case 'canonical':
      return uri(raw);
    default:
      return string(raw);
  }
}

/** Whole groups of four; white space is taken out by the caller where this fails, so most texts are read once. */
function isBase64(raw: string): boolean {
  if (raw.length % 4 !== 0) return false;
  const end = raw.endsWith('==') ? raw.length - 2 : raw.endsWith('=') ? raw.length - 1 : raw.length;
  for (let at = 0; at < end; at += 1) if (BASE64[raw.charCodeAt(at)] !== 1) return false;
  return true;
}

function integer(raw: string, least: number): string | undefined {
  if (!INTEGER.test(raw)) return 'expected a whole number without point or exponent';
  const value = Number(raw);
  if (value < least) return `expected at least ${least}`;
  return value > LARGEST ? `expected at most ${LARGEST}` : undefined;
}

/** Checks the day against the calendar: the grammar alone would let 30 February pass. */
function calendar(found: RegExpExecArray | null, expected: string): string | undefined {
  if (!found) return expected;
  const [, year = '', month, day] = found;
  if (year === '0000') return 'there is no year 0000';
  if (month === undefined || day === undefined) return undefined;
  return Number(day) <= daysIn(Number(year), Number(month))
    ? undefined
    : `${year}-${month} has no day ${Number(day)}`;
}

function daysIn(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

function uri(raw: string): string | undefined {
  if (/\s/.test(raw)) return 'expected no white space';
  if (raw.startsWith('urn:uuid:') && !UUID.test(raw)) return 'expected a UUID in lower case';
  if (raw.startsWith('urn:oid:') && !OID.test(raw)) return 'the OID is not well formed';
  return undefined;
}

function string(raw: string): string | undefined {
  if (FORBIDDEN.test(raw)) return 'expected no control characters other than tab, line feed and return';
  return /^[ \t\r\n]*$/.test(raw) ? 'expected something beside white space' : undefined;
}
