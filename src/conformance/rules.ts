import { conformanceWording } from '../findings/wording/conformance.js';

type Code = keyof typeof conformanceWording;

/** A rule of the engine: its finding code without the area. */
export type RuleId = Code extends `conformance.${infer R}` ? R : never;

/** All rules of the engine; each has a known-bad example in the tests that must fail. */
export const ruleIds: readonly RuleId[] = Object.keys(conformanceWording).map(
  code => code.slice('conformance.'.length) as RuleId,
);
