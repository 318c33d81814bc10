import { type Reply, refusal } from '../api/reply.js';

/** Types that stand for FHIR's JSON. Source: FHIR R4, http.html#mime-type. */
const JSON_TYPES = ['application/fhir+json', 'application/json', 'text/json'];
/** Release that `fhirVersion` may name beside a type. Source: FHIR R4, http.html#version-parameter. */
const VERSION = /^4\.0(\.1)?$/;

/** Content-Type of every answer that holds a resource. */
export const FHIR_JSON = { 'content-type': 'application/fhir+json; charset=utf-8' };

interface MediaType {
  readonly type: string;
  readonly params: ReadonlyMap<string, string>;
}

function mediaType(text: string): MediaType {
  const [type = '', ...rest] = text.toLowerCase().split(';');
  const params = rest.map((part): [string, string] => {
    const at = part.indexOf('=');
    return [
      part.slice(0, Math.max(at, 0)).trim(),
      part
        .slice(at + 1)
        .trim()
        .replace(/^"|"$/g, ''),
    ];
  });
  return { type: type.trim(), params: new Map(params) };
}

const isOurs = ({ params }: MediaType): boolean => VERSION.test(params.get('fhirversion') ?? '4.0');
const isJson = (media: MediaType): boolean => JSON_TYPES.includes(media.type) && isOurs(media);

/** True where an Accept header lets JSON pass; a range that names it goes before a wider one (RFC 9110, 12.5.1). */
function accepts(header: string): boolean {
  const ranges = header.split(',').map(mediaType);
  const weighs = ({ params }: MediaType) => !(Number(params.get('q') ?? 1) <= 0);
  const named = ranges.filter(isJson);
  const wide = ranges.filter(range => /^(\*|application)\/\*$/.test(range.type) && isOurs(range));
  return named.length > 0 ? named.some(weighs) : wide.some(weighs);
}

/**
 * Why an answer in JSON will not do; undefined where it will. `_format` goes before Accept. Source: FHIR R4,
 * http.html#parameters and #mime-type.
 */
export function notAcceptable(accept: string | undefined, format: unknown): Reply | undefined {
  const fine =
    format === undefined
      ? accept === undefined || accept.trim() === '' || accepts(accept)
      : typeof format === 'string' &&
        // A plus that was not escaped in the address is read as a space.
        (format === 'json' || isJson(mediaType(format.replace('fhir json', 'fhir+json'))));
  return fine
    ? undefined
    : refusal(
        406,
        'not-supported',
        'Answers are FHIR R4 as application/fhir+json alone: name it in Accept, or write ?_format=json.',
      );
}

/** Why a body is not read; undefined where it is JSON by its type. Source: FHIR R4, http.html#mime-type. */
export function notReadable(type: string | undefined): Reply | undefined {
  const media = mediaType(type ?? '');
  return isJson(media) && /^utf-?8$/.test(media.params.get('charset') ?? 'utf-8')
    ? undefined
    : refusal(
        415,
        'not-supported',
        'Resources are read as FHIR R4 in application/fhir+json, in UTF-8; XML is not read.',
      );
}
