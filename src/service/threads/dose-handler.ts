import { readDoseFiles } from '../../intake/dose/files.js';
import { MAX_FILES } from '../../intake/dose/limits.js';
import { doseLines } from '../../intake/dose/lines.js';
import { openBytes } from '../../pipeline/open-case.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import type { CasePorts } from './case-handlers.js';
import { isDicom, isInParts, partsOf } from './sent-case.js';

/** Dose reports as a request brings them, and the record to hold them against. */
interface SentDose {
  readonly given: readonly { readonly file: string; readonly bytes: Uint8Array }[];
  readonly record?: Uint8Array;
}

/**
 * POST /dose/check: what dose reports say, what they give to a record, and what differs from the one that came with them.
 * Nothing of it is kept.
 */
export async function doseHandler(
  body: Uint8Array,
  type: string,
  maxBytes: number,
  { site, language }: Pick<CasePorts, 'site' | 'language'>,
): Promise<Reply> {
  const sent = await sentDose(body, type, maxBytes);
  if ('refused' in sent) return sent.refused;
  const now = Date.now();
  const opened = sent.record && (await openBytes(sent.record, site, now));
  if (opened && !opened.record)
    return refusal(
      422,
      'invalid',
      'The record must be readable as a whole first.',
      opened.findings,
      {},
      language,
    );
  const reading = await readDoseFiles(sent.given, {
    record: opened?.record,
    readAt: new Date(now).toISOString(),
  });
  const { files, summary, compared, contribution } = reading;
  if (files.every(({ report }) => !report)) {
    const why = files.flatMap(({ findings }) => findings);
    return refusal(400, 'structure', 'This is not a dose report that can be read.', why, {}, language);
  }
  return reply(
    200,
    {
      files,
      counted: summary.counted.map(({ file }) => file),
      figures: summary.figures,
      findings: [...summary.findings, ...compared],
      contribution,
      lines: doseLines(contribution),
    },
    { language },
  );
}

/** One report as it is, or parts named `dose` (with file names) and `case` (at most one). */
async function sentDose(
  body: Uint8Array,
  type: string,
  maxBytes: number,
): Promise<SentDose | { readonly refused: Reply }> {
  const no = (...about: Parameters<typeof refusal>) => ({ refused: refusal(...about) });
  if (!isDicom(type) && !isInParts(type))
    return no(
      415,
      'not-supported',
      'A dose report is sent as application/dicom, or in parts as multipart/form-data.',
    );
  if (body.length === 0) return no(400, 'structure', 'The request has no body: send a dose report.');
  if (isDicom(type)) return { given: [{ file: 'report', bytes: body }] };
  const parts = await partsOf(body, type);
  if (!parts) return no(400, 'structure', 'The parts of the request cannot be read as multipart/form-data.');
  if (parts.some(({ name }) => name !== 'dose' && name !== 'case'))
    return no(400, 'structure', "Parts are named 'dose' and 'case', and nothing else.");
  const given = parts.flatMap(({ name, file, bytes }) =>
    name === 'dose' ? [{ file: file ?? 'report', bytes }] : [],
  );
  if (given.length === 0 || given.length > MAX_FILES)
    return no(400, 'structure', `Send 1 to ${MAX_FILES} parts named 'dose'.`);
  const records = parts.filter(({ name }) => name === 'case');
  if (records.length > 1) return no(400, 'structure', "At most one part, named 'case', holds the record.");
  const record = records[0]?.bytes;
  if (record && record.length > maxBytes)
    return no(413, 'too-long', `A case may have ${maxBytes} bytes at most.`);
  return { given, ...(record && { record }) };
}
