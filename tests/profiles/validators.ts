import { type ProfileExample, profileExamples } from '../../scripts/profiles/examples.js';
import { canonical, sources, version } from '../../scripts/profiles/source.js';
import { createValidator, loadDefinitions, shelfOf, type Validator } from '../../src/conformance/index.js';
import type { KnownBad } from './known-bad.js';

let validator: Validator | undefined;
let examples: readonly ProfileExample[] | undefined;

export const addressOf = (profile: string): string => `${canonical}/StructureDefinition/${profile}`;

/** A validator with the profiles as they lie in `profiles/`, whatever was compiled. */
export function profileValidator(): Validator {
  validator ??= createValidator(
    loadDefinitions().with(shelfOf({ name: 'casetally.profiles', version: version() }, sources())),
  );
  return validator;
}

export function allExamples(): readonly ProfileExample[] {
  examples ??= profileExamples();
  return examples;
}

/** Profiles of what is inside a registry entry have their example there. */
const inEntry = new Set([
  'registry-patient',
  'registry-device',
  'registry-procedure',
  'age-group',
  'complications',
  'also-done',
  'part-of-device',
  'number-alike',
  'entry-version',
  'placed-entry',
  'dwell-days',
  'removal-reason',
  'next-review',
  'site-side',
]);

/** Text of the spoilt example. */
export function spoilt({ profile, spoil }: KnownBad): string {
  const address = addressOf(inEntry.has(profile) ? 'registry-entry' : profile);
  const example = allExamples().find(one => one.profile === address);
  if (!example) throw new Error(`${profile} has no example`);
  const resource: unknown = JSON.parse(example.text);
  spoil(resource);
  return JSON.stringify(resource);
}
