import type { EntryElements } from '../../src/registry/entry/elements.js';
import type { BatchRow, Line, NewLine } from '../../src/registry/store/submissions.js';

/** An entry of a case, as far as tests look at it. */
export const elementsOf = (device: string, more: Partial<EntryElements> = {}): EntryElements => ({
  entry: `k1.entry-${device}`,
  status: 'active',
  action: 'implanted',
  patient: 'k1.patient',
  case: 'k1.case',
  caseKind: ['nephrostomy'],
  caseStatus: 'completed',
  date: '2024-05-12',
  complications: 'none',
  grades: [],
  family: 'drain',
  ...more,
});

export const newLine = (
  device: string,
  more: Partial<NewLine> = {},
  elements: Partial<EntryElements> = {},
): NewLine => ({
  name: { case: 'A', device },
  version: 1,
  caseVersion: 1,
  digest: `digest of ${device}`,
  elements: elementsOf(device, { version: more.version ?? 1, ...elements }),
  coarser: 0,
  number: { system: 'https://ids.harbour.example/mrn', value: '4711' },
  ...more,
});

export const lineOf = (
  device: string,
  more: Partial<Line> = {},
  elements: Partial<EntryElements> = {},
): Line => ({
  ...newLine(device, more, elements),
  ...{ registry: 'drains', batch: 'b-1', line: 1, state: 'accepted' },
  ...more,
});

export const batchOf = (id: string, more: Partial<BatchRow> = {}): BatchRow => ({
  ...{ registry: 'drains', id, state: 'made', madeAt: 1 },
  manifest: {
    ...{ registry: 'drains', batch: id, made: '2024-05-12T08:00:00.000Z', format: 'text/csv' },
    definition: { name: 'Invented', version: '1', sha256: 'd'.repeat(64) },
    sender: { software: 'casetally' },
    ...{ entries: 1, cases: 1, sha256: 'a'.repeat(64), keyId: 'k1', withheld: [] },
  },
  ...more,
});
