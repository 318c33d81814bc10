import { describe } from 'vitest';
import { searchesAt } from '../support/searches.js';
import { startOtherServer } from './server/start.js';

/* The same searches at a FHIR server of another make; it runs when asked for: npm run test:servers. */
const asked = process.env['CASETALLY_TEST_SERVERS'] === '1';
const title = asked ? 'HAPI FHIR 8.8.0' : 'HAPI FHIR 8.8.0 (skipped: npm run test:servers runs it)';

describe.skipIf(!asked)(`searches of docs/mapping.md, ${title}`, () => searchesAt(startOtherServer));
