import { inCI, seedOf, turnOf } from './sampled.js';

/**
 * Files of tests that take ten seconds to a minute, most of it for services, browsers and lists of everything. `.ci/run`
 * takes two of five of them, which ones by the commit: all together they take longer than a change should wait. In this
 * order, the longest first; of those beside one another never the same ones run.
 */
export const long: readonly string[] = [
  'service/api/service',
  'service/api/review',
  'service/case-page/whole-case',
  'cli/commands/move',
  'cli/commands/bulk/killed',
  'cli/commands/bulk/bulk',
  'service/case-page/scanning',
  'service/case-page/record',
  'service/case-page/together',
  'service/case-page/access',
  'service/api/review-languages',
  'remedies/remedies',
  'e2e/crash/crash',
  'delivery/outbox/postgres',
  'cli/commands/packages-push',
  'report/pdf/facts',
  'report/pdf/hostile',
  'service/api/limits',
  'service/case-page/sign',
  'drafts/edit',
  'service/case-page/after',
  'service/case-page/close',
  'service/case-page/home',
  'service/case-page/taps',
  'pipeline/pictures/formats',
  'e2e/signed-case',
  'intake/form/round-trip',
  'pipeline/submit-corrections',
  'e2e/killed-registry-send',
  'report/render/axe',
  'drafts/merge',
  'e2e/modes',
  'e2e/killed-at-destination',
  'clinical/missing',
  'report/pdf/pictures',
  'service/api/reports',
  'intake/lines/hostile',
  'published/calendar',
  'intake/dose/hostile',
  'e2e/demo-intake',
  'report/pdf/sameness',
  'registry/registry',
  'e2e/roundtrip/roundtrip',
  'report/languages',
  'register/store/stores',
  'findings/words/words',
  'cli/commands/sandbox',
  'published/fhir-conditional-create',
  'e2e/soak/soak',
  'audit/store/sql-audit',
  'report/render/hostile',
  'fhir/every-field',
  'conformance/check/xhtml',
  'service/case-page/from-order',
  'published/labels-one-character',
  'intake/write/write',
  'fhir/map-case',
  'pipeline/same-bytes',
  'record/read',
  'e2e/killed-drafts',
  'cli/loaded',
  'fhir/contents',
  'report/reasons',
  'record/zones',
  'cli/commands/gate',
  'cli/commands/register/update-destinations',
  'service/api/form',
  'intake/form/valid',
  'e2e/reaction',
  'service/api/sign-in-page',
  'service/threads/pool',
  'service/api/dose',
];

const EVERY = 5;
const TAKEN = 2;

/** Those whose turn it is not. @param seed what the turn goes by */
export const leftOutAt = (seed: string): readonly string[] => {
  const turn = turnOf('long files', EVERY, seed);
  return long.filter((_, index) => (index + turn) % EVERY >= TAKEN);
};

/** Left out of this run: nothing but where a machine asks (`CI`), and there not with CASETALLY_ALL=1. */
export const leftOut: readonly string[] = inCI ? leftOutAt(seedOf()) : [];
