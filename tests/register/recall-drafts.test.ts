import { describe, expect, it } from 'vitest';
import { loadDefinitions } from '../../src/conformance/definitions/load.js';
import { createValidator } from '../../src/conformance/validator.js';
import { affectedBy, recallDraft } from '../../src/register/recall-drafts.js';
import type { RecallHit, UseSummary } from '../../src/register/store/register.js';

const use: UseSummary = {
  id: 'A/filter',
  person: 'p1',
  device: 'filter',
  name: 'Filter <b>X</b> & "Y"',
  kind: 'caval filter',
  family: 'filter',
  di: '09506000117843',
  lot: 'L1',
  serial: 'S1',
  expires: '2026-03',
  retrievable: true,
  state: 'inside',
  placed: '2024-01-10',
  insertionHeld: true,
  count: 1,
  inside: 1,
};
const hit = (answer: RecallHit['answer'], more: Partial<RecallHit> = {}): RecallHit => ({
  line: 1,
  use,
  answer,
  unknown: answer === 'perhaps' ? ['lot'] : [],
  ...more,
});
const numbers = [{ system: 'https://ids.harbour.example/mrn', value: '4711' }];
const namespace = '6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11';
const draft = (answer: RecallHit['answer'], of = numbers) =>
  recallDraft({ hit: hit(answer), lines: [1], numbers: of }, namespace);

describe('drafts of a recall', () => {
  const validator = createValidator(loadDefinitions());

  it.each(['carries now', 'carried', 'perhaps'] as const)('are valid FHIR R4: %s', answer => {
    for (const of of [numbers, [{ system: '', value: '9' }], []])
      for (const resource of Object.values(draft(answer, of))) {
        const { issues } = validator.validateResource(resource);
        expect(issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')).toEqual([]);
      }
  });

  it('are never active or sent, and say that they are drafts', () => {
    for (const answer of ['carries now', 'carried', 'perhaps'] as const) {
      const { flag, communication } = draft(answer);
      expect(communication.status).toBe('preparation');
      expect(communication.payload?.[0]?.contentString).toMatch(/^DRAFT, not sent/);
      for (const sent of ['sent', 'received', 'recipient', 'sender'])
        expect(communication).not.toHaveProperty(sent);
      expect(flag?.status).toBe(answer === 'carried' ? undefined : 'inactive');
      expect(flag?.code.text ?? 'DRAFT').toMatch(/^DRAFT/);
    }
  });

  it('have the same ids for the same device, and others for another', () => {
    expect(draft('perhaps')).toEqual(draft('perhaps'));
    const ids = [draft('carries now').flag?.id, draft('carries now').communication.id];
    const other = recallDraft(
      { hit: hit('carries now', { use: { ...use, id: 'B/filter' } }), lines: [1], numbers },
      namespace,
    );
    expect(new Set([...ids, other.flag?.id, other.communication.id]).size).toBe(4);
  });

  it('are one for a device of a person, however many lines meet it, by the surest answer', () => {
    const elsewhere = { ...use, person: 'p2' };
    const all = affectedBy(
      [
        hit('perhaps', { line: 1 }),
        hit('carries now', { line: 4 }),
        hit('carried', { line: 2, use: elsewhere }),
      ],
      person => (person === 'p1' ? numbers : []),
    );
    expect(all.map(({ hit: { answer }, lines, numbers: of }) => [answer, lines, of.length])).toEqual([
      ['carries now', [1, 4], 1],
      ['carried', [2], 0],
    ]);
  });
});
