import type { Receipt } from '../../../src/delivery/receipt/receipt.js';

/** A receipt for one procedure. */
export const delivery: Receipt = {
  destination: 'records',
  baseUrl: 'https://fhir.example.org',
  requestId: 'r1',
  sentAt: '2024-03-14T10:00:00.000Z',
  digest: 'sha256:1',
  how: 'answered',
  entries: [{ fullUrl: 'urn:uuid:1', type: 'Procedure', status: 201, id: '1', found: 'answer' }],
  warnings: [],
};
