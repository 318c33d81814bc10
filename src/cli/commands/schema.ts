import { caseRecordJsonSchema } from '../../record/json-schema.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { jsonText, type Output } from '../output.js';

/** Prints the JSON Schema of the case record. */
export async function schema(output: Output): Promise<ExitCode> {
  output.out(jsonText(caseRecordJsonSchema()));
  return exitCodes.ok;
}
