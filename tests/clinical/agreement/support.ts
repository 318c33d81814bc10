import { checkAgreement } from '../../../src/clinical/agreement/check.js';
import { describeDevices } from '../../../src/devices/details.js';
import { tallyDevices } from '../../../src/devices/tally/tally.js';
import { type CaseRecord, parseCase } from '../../support/source.js';

/** What a test gives: top-level fields of a record as YAML; those of the case and the patient as flow maps. */
export function recordOf(body: string, head = 'kind: nephrostomy', patient = ''): CaseRecord {
  const status = /\bstatus:/.test(head) ? '' : 'status: completed, ';
  const { record, findings } = parseCase(`casetally: 1
case: { id: C-1, ${status}date: 2024-03-14, timeZone: Europe/Lisbon, started: "09:00", ended: "10:00", ${head} }
patient: { identifiers: [{ system: "https://ids.example/p", value: P-1 }]${patient === '' ? '' : `, ${patient}`} }
team: [{ key: op, role: operator, name: Dr Sefa Marquand }]
${/^indication:/m.test(body) ? '' : 'indication: { text: Pain }'}
${body}
report: { status: final, author: op }
`);
  if (!record) throw new Error(JSON.stringify(findings));
  return record;
}

/** Codes and paths of the findings whose code begins with `code`. */
export function found(code: string, record: CaseRecord): string[] {
  const { devices } = describeDevices(record);
  return checkAgreement(record, devices, tallyDevices(record, devices))
    .filter(f => f.code.startsWith(code))
    .map(f => `${f.code} ${f.path}`);
}
