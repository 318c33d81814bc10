/**
 * Conformance of FHIR R4 JSON to profiles, offline: `loadDefinitions` once, then a validator for any
 * number of resources.
 */
export type { PackageSource, Shelf } from './definitions/definitions.js';
export { Definitions } from './definitions/definitions.js';
export { definitionsPath, loadDefinitions } from './definitions/load.js';
export { withSnapshot } from './definitions/snapshot.js';
export type { FileResult } from './files.js';
export { validateFiles, validateLines } from './files.js';
export { toFinding, toOperationOutcome } from './outcome.js';
export type { LoadedPackages } from './packages/cache.js';
export { addPackage, listPackages, loadPackages } from './packages/cache.js';
export type { FhirPackage } from './packages/read.js';
export { readPackage } from './packages/read.js';
export { shelfOf } from './packages/shelf.js';
export type { Issue, Result, ValidateOptions, Validator } from './result.js';
export { hasErrors } from './result.js';
export type { RuleId } from './rules.js';
export { ruleIds } from './rules.js';
export type { RuleCount } from './summary.js';
export { summarise } from './summary.js';
export type { Question, TerminologyServer, Unanswered } from './terminology/server.js';
export { AnswerBook, askTerminologyServer } from './terminology/server.js';
export type { Answers } from './terminology/terminology.js';
export type { ValidatorOptions } from './validator.js';
export { createValidator } from './validator.js';
export type { Waiver } from './waivers.js';
