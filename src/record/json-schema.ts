import { z } from 'zod';
import { recordSchema } from './schema/record.js';

/** The case record as JSON Schema (draft 2020-12), for editors: they complete and check a case while it is typed. */
export function caseRecordJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(recordSchema({}), { io: 'input', reused: 'ref' });
  return {
    ...schema,
    $id: 'urn:casetally:case-record:1',
    title: 'Casetally case record, version 1',
    description: 'One image-guided case: who, why, every device, every event, what stays, what next.',
  };
}
