import { describe, expect, test } from 'vitest';
import { AnswerBook, askTerminologyServer, createValidator } from '../../../src/conformance/index.js';
import { shipped } from '../validators.js';

const device = {
  resourceType: 'Device',
  meta: { profile: ['http://hl7.org/fhir/uv/ips/StructureDefinition/Device-uv-ips'] },
  type: { coding: [{ system: 'http://snomed.info/sct', code: '303619004' }] },
};
const valueSet = 'http://hl7.org/fhir/uv/ips/ValueSet/medical-devices-uv-ips';
const parameters = (result: unknown) =>
  new Response(
    JSON.stringify({ resourceType: 'Parameters', parameter: [{ name: 'result', valueBoolean: result }] }),
  );

/** A server that answers every question with what `reply` makes, and notes what it was asked. */
function serverOf(reply: () => Response) {
  const asked: URL[] = [];
  const fetch: typeof globalThis.fetch = async input => {
    asked.push(new URL(String(input)));
    return reply();
  };
  return { asked, server: { base: 'http://terms.test/fhir/', fetch } };
}

test('what the packages cannot decide is asked once, and the answer then counts', async () => {
  const book = new AnswerBook();
  const validator = createValidator(shipped(), { answers: book });
  const before = validator.validateResource(device);
  expect(before.issues.map(i => i.rule)).toContain('binding-not-checked');
  expect(before.open).toEqual([{ valueSet, system: 'http://snomed.info/sct', code: '303619004' }]);
  const { asked, server } = serverOf(() => parameters(false));
  expect(await askTerminologyServer(before.open, book, server)).toEqual([]);
  expect(await askTerminologyServer(before.open, book, server)).toEqual([]);
  expect(asked.map(u => u.pathname + u.search)).toEqual([
    `/fhir/ValueSet/$validate-code?url=${encodeURIComponent(valueSet)}&code=303619004&system=${encodeURIComponent('http://snomed.info/sct')}`,
  ]);
  const after = validator.validateResource(device);
  expect(after.open).toEqual([]);
  expect(after.issues.map(i => i.rule)).toContain('binding-preferred');
  const kept = createValidator(shipped(), { answers: AnswerBook.from(book.entries()) });
  expect(kept.validateResource(device).open).toEqual([]);
});

describe('what is no answer leaves the question open', () => {
  const outcome = { resourceType: 'OperationOutcome', issue: [{ severity: 'error', code: 'exception' }] };
  test.each([
    ['an OperationOutcome with status 200', () => new Response(JSON.stringify(outcome))],
    ['a result that is no boolean', () => parameters('true')],
    ['text', () => new Response('busy', { status: 503 })],
    ['nothing', () => new Response(null, { status: 204 })],
    [
      'a failure to connect',
      () => {
        throw new TypeError('connection refused');
      },
    ],
  ])('%s', async (_what, reply) => {
    const book = new AnswerBook();
    const { open } = createValidator(shipped()).validateResource(device);
    const { server } = serverOf(reply);
    const unanswered = await askTerminologyServer(open, book, server);
    expect(unanswered).toHaveLength(1);
    expect(unanswered[0]?.reason).toMatch(/server/);
    expect(book.entries()).toEqual([]);
  });
});
