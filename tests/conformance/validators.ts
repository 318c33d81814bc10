import { readFileSync } from 'node:fs';
import type { Definitions } from '../../src/conformance/definitions/definitions.js';
import type { Result, Validator } from '../../src/conformance/index.js';
import { createValidator, loadDefinitions } from '../../src/conformance/index.js';

/** FHIR JSON that tests change at will. */
// biome-ignore lint/suspicious/noExplicitAny: tests reach into resources that they make wrong on purpose
export type Loose = any;

let definitions: Definitions | undefined;
let validator: Validator | undefined;

export function shipped(): Definitions {
  definitions ??= loadDefinitions();
  return definitions;
}

export function standard(): Validator {
  validator ??= createValidator(shipped());
  return validator;
}

/** A resource of a FHIR package in node_modules. */
export function published(path: string): Loose {
  return JSON.parse(readFileSync(new URL(`../../node_modules/${path}`, import.meta.url), 'utf8')) as Loose;
}

export function errors(result: Result): string[] {
  return result.issues
    .filter(i => i.severity === 'error' || i.severity === 'fatal')
    .map(i => `${i.key ?? i.rule} ${i.path}`);
}
