import { expect, it } from 'vitest';
import { isDelivered, type SendOutcome, sendExitCode } from '../../../src/delivery/answer/outcome.js';

const receipt = {
  destination: 'test server',
  baseUrl: 'https://fhir.example.org/r4',
  requestId: 'r',
  sentAt: '2024-03-14T10:00:00.000Z',
  digest: 'sha256:0',
  how: 'answered' as const,
  entries: [],
  warnings: [],
};

// The exit codes are promised in README.md.
it.each<[SendOutcome['state'], 0 | 1 | 3 | 4]>([
  ['delivered', 0],
  ['delivered-already', 0],
  ['not-sent', 1],
  ['refused', 3],
  ['partial', 3],
  ['conflict', 3],
  ['destination-paused', 3],
  ['outcome-unknown', 4],
  ['throttled', 4],
  ['unreachable', 4],
])('%s ends with exit code %d', (state, code) => {
  const rest = { attempts: [], findings: [] };
  const outcome: SendOutcome =
    state === 'delivered' || state === 'delivered-already'
      ? { ...rest, state, receipt }
      : { ...rest, state, issues: [] };
  expect([sendExitCode(outcome), isDelivered(outcome)]).toEqual([code, code === 0]);
});
