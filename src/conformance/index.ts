/**
 * Conformance of FHIR R4 JSON to profiles, offline: `loadDefinitions` once, then a validator for any
 * number of resources.
 */
export type { Issue, Result, ValidateOptions, Validator } from './result.js';
export { hasErrors } from './result.js';
export type { RuleId } from './rules.js';
export { ruleIds } from './rules.js';
