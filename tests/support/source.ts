export { type ParsedCase, parseCase } from '../../src/record/parse.js';
export type { CaseRecord } from '../../src/record/schema/record.js';
