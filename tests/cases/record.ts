import { messageOf } from '../../src/findings/finding.js';
import { parseCaseData } from '../../src/record/parse.js';
import type { CaseRecord } from '../../src/record/schema/record.js';

const base = {
  casetally: 1,
  case: {
    id: 'T-1',
    status: 'completed',
    date: '2024-03-14',
    timeZone: 'Europe/Lisbon',
    kind: 'test',
    started: '08:00',
  },
  patient: { identifiers: [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: '1' }] },
  team: [{ key: 'op', role: 'operator', name: 'Dr Ilse Branquinho' }],
  indication: { text: 'test' },
  report: { status: 'preliminary', author: 'op' },
};

/** A whole record from parts of one; `case` is laid over the small one, everything else replaces it. */
export function recordOf(parts: Record<string, unknown>): CaseRecord {
  const head = typeof parts['case'] === 'object' ? parts['case'] : {};
  const parsed = parseCaseData({ ...base, ...parts, case: { ...base.case, ...head } });
  if (!parsed.record) {
    const faults = parsed.findings.filter(f => f.severity === 'error' || f.severity === 'fatal');
    throw new Error(faults.map(f => `${f.path}: ${messageOf(f)}`).join('\n'));
  }
  return parsed.record;
}
