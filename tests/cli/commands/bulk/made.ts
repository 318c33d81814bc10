import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { unsealed } from '../../../../src/delivery/outbox/sealing.js';
import { openSqliteOutbox } from '../../../../src/delivery/outbox/sqlite-outbox.js';
import { recordOf } from '../../../../src/pipeline/outbox-item.js';

const readme = readFileSync(join(import.meta.dirname, '..', '..', '..', '..', 'README.md'), 'utf8');
const block = /```yaml\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';

/** A small case without an error, by its number. */
export const madeCase = (id: string): string => block.replace('D-0417', id);

/** A site whose destination nobody listens at. */
export const siteText = `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
references: { patient: include, encounter: include, order: include, practitioner: include }
destinations:
  records: { url: "http://127.0.0.1:4/fhir" }
register: {}
`;

/** Texts of the records in the outbox of a data folder, in the order in which they came. */
export async function outboxRecords(data: string): Promise<string[]> {
  const outbox = await openSqliteOutbox(join(data, 'outbox.db'), { newId: () => 'none', sealing: unsealed });
  try {
    return (await outbox.list()).map(item => recordOf(item) ?? '');
  } finally {
    await outbox.close();
  }
}

/** The numbers of cases in the outbox, in the order in which they came. */
export const outboxCases = async (data: string): Promise<string[]> =>
  (await outboxRecords(data)).map(text => /["']?id["']?: ?"?([\w-]+)/.exec(text)?.[1] ?? '?');
