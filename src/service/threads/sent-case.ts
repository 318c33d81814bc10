import { type Reply, refusal } from '../api/reply.js';

/** A case as a request brings it, with what belongs to it. */
export interface SentCase {
  readonly record: Uint8Array;
  /** Records of the earlier versions that were sent. */
  readonly previous: readonly Uint8Array[];
  /** Pictures by the name that the record gives them. */
  readonly pictures: ReadonlyMap<string, Uint8Array>;
  /** What other programs give as sources. */
  readonly sources: readonly Uint8Array[];
  /** Spoken or typed lines. */
  readonly lines?: string;
}

const RECORD = /^(application\/(json|yaml|x-yaml)|text\/(yaml|x-yaml|plain))\b/i;
const PARTS = /^multipart\/form-data\b/i;

/** True for a request of several parts. */
export const isInParts = (type: string | undefined): boolean => PARTS.test(type ?? '');

/** True for a DICOM file. */
export const isDicom = (type: string | undefined): boolean => /^application\/dicom\s*(;|$)/i.test(type ?? '');

/** Parts of a request in the order they came; undefined where it cannot be read as parts. */
export async function partsOf(
  body: Uint8Array,
  type: string,
): Promise<{ readonly name: string; readonly file?: string; readonly bytes: Uint8Array }[] | undefined> {
  const form = await formOf(body, type);
  if (!form) return undefined;
  const parts = [...form].map(async ([name, part]) => ({
    name,
    ...(typeof part !== 'string' && { file: part.name }),
    bytes: await bytesOf(part),
  }));
  return Promise.all(parts);
}

async function formOf(body: Uint8Array, type: string): Promise<FormData | undefined> {
  try {
    return await new Response(new Uint8Array(body), { headers: { 'content-type': type } }).formData();
  } catch {
    return undefined;
  }
}

/**
 * Reads the body of a request: a case record as it is, or parts named `case`, `previous` (any number) and `picture` (any
 * number, each with the file name that the record gives it), `source` (any number) and `lines` (spoken or typed lines).
 * @param maxBytes of one record
 */
export async function sentCase(
  body: unknown,
  type: string,
  maxBytes: number,
): Promise<SentCase | { readonly refused: Reply }> {
  const no = (...about: Parameters<typeof refusal>) => ({ refused: refusal(...about) });
  if (!RECORD.test(type) && !PARTS.test(type))
    return no(
      415,
      'not-supported',
      'A case is sent as application/json, application/yaml or text/plain, or in parts as multipart/form-data.',
    );
  if (!(body instanceof Uint8Array) || body.length === 0)
    return no(400, 'structure', 'The request has no body: send a case record.');
  if (!PARTS.test(type)) return { record: body, previous: [], pictures: new Map(), sources: [] };
  const parts = await formOf(body, type);
  if (!parts) return no(400, 'structure', 'The parts of the request cannot be read as multipart/form-data.');
  const unknown = [...parts.keys()].find(
    name => !['case', 'previous', 'picture', 'source', 'lines'].includes(name),
  );
  if (unknown !== undefined)
    return no(
      400,
      'structure',
      "Parts are named 'case', 'previous', 'picture', 'source' and 'lines', and nothing else.",
    );
  const records = await Promise.all([...parts.getAll('case'), ...parts.getAll('previous')].map(bytesOf));
  const [record, ...previous] = records;
  if (!record || record.length === 0 || parts.getAll('case').length !== 1)
    return no(400, 'structure', "One part, named 'case', holds the case record.");
  if (records.some(({ length }) => length > maxBytes))
    return no(413, 'too-long', `A case may have ${maxBytes} bytes at most.`);
  const pictures = new Map<string, Uint8Array>();
  for (const part of parts.getAll('picture')) {
    if (typeof part === 'string') return no(400, 'structure', 'A picture is a file part with a file name.');
    pictures.set(part.name, await bytesOf(part));
  }
  const sources = await Promise.all(parts.getAll('source').map(bytesOf));
  const lines = parts.getAll('lines');
  if (lines.length > 1) return no(400, 'structure', "One part, named 'lines', holds all lines.");
  const [said] = await Promise.all(lines.map(bytesOf));
  const text = said && { lines: Buffer.from(said).toString('utf8') };
  return { record, previous, pictures, sources, ...text };
}

type Part = ReturnType<FormData['getAll']>[number];

async function bytesOf(part: Part): Promise<Uint8Array> {
  return typeof part === 'string' ? Buffer.from(part, 'utf8') : new Uint8Array(await part.arrayBuffer());
}
