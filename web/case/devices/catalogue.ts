import type { CatalogueDetails } from '../../../src/devices/catalogue/row.js';
import { ask } from '../ask/ask.js';

/** How long a scan waits for the catalogue, in milliseconds: without an answer the page asks what the device is. */
const PATIENCE = 3_000;
const known = new Map<string, readonly CatalogueDetails[]>();

/** What the catalogue of the site knows of an identifier; nothing while the service is away. */
export async function catalogueRows(di: string): Promise<readonly CatalogueDetails[]> {
  const there = known.get(di);
  if (there) return there;
  const answer = await ask<{ readonly rows: readonly CatalogueDetails[] }>(
    'v1/devices/catalogue',
    { json: { di: [di] } },
    AbortSignal.timeout(PATIENCE),
  );
  if (!answer.ok) return [];
  known.set(di, answer.body.rows);
  return answer.body.rows;
}
