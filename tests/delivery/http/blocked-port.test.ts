import { expect, it } from 'vitest';
import { faultOf } from '../../../src/delivery/http/fault.js';

// Fetch standard, section 2.9 (port blocking): a request to a bad port is a network error before any connection.
it('a port that fetch blocks counts as not sent', async () => {
  const error: unknown = await fetch('http://127.0.0.1:9/fhir', { method: 'POST', body: '{}' }).catch(
    (e: unknown) => e,
  );
  expect(faultOf(error, undefined, 1)).toMatchObject({ reason: 'connect', sent: 'no' });
});
