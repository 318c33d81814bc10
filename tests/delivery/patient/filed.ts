import { SYSTEM } from '../samples.js';

/** What the tests of the right patient have at a server and send to it; all of it is invented. */
export const number = (part: string) => [{ system: SYSTEM, value: part }];
const query = (part: string) => `identifier=${encodeURIComponent(`${SYSTEM}|${part}`)}`;

export const person = {
  resourceType: 'Patient',
  identifier: number('MRN'),
  name: [{ family: 'Odera', given: ['Wambugu'] }],
  gender: 'male',
  birthDate: '1990-07-19',
};

/** A case that points at patient, encounter and order by their numbers. */
export function filedCase(caseId: string, more: { patient?: string; procedure?: object } = {}): string {
  const subject = { reference: `Patient?${query(more.patient ?? 'MRN')}` };
  const own = (type: string, resource: object) => ({
    fullUrl: `urn:uuid:00000000-0000-4000-8000-00000000000${type.length}`,
    request: { method: 'POST', url: type, ifNoneExist: query(`${caseId}-${type}`) },
    resource: { resourceType: type, identifier: number(`${caseId}-${type}`), ...resource },
  });
  return JSON.stringify({
    resourceType: 'Bundle',
    type: 'transaction',
    entry: [
      own('Procedure', {
        status: 'completed',
        subject,
        encounter: { reference: `Encounter?${query('ENC')}` },
        basedOn: [{ reference: `ServiceRequest?${query('ORD')}` }],
        performedPeriod: { start: '2024-11-07T11:05:00+03:00', end: '2024-11-07T11:52:00+03:00' },
        ...more.procedure,
      }),
      own('Device', { patient: subject }),
    ],
  });
}

/** What is kept beside it: the patient as the record has them. */
export const beside = (patient: object = {}) =>
  JSON.stringify({
    expected: {
      patient: { ...person, name: [{ text: 'Wambugu Starling Odera' }], ...patient },
      order: { identifier: number('ORD') },
    },
  });
