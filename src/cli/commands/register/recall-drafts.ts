import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { CasetallyError } from '../../../findings/errors.js';
import { type Affected, answerText, recallDraft } from '../../../register/recall-drafts.js';
import { writeAll } from '../../files.js';
import { csv } from '../../terminal/csv.js';

/** Files of drafts in their folder. */
const FILES = { contacts: 'contacts.csv', flags: 'Flag.ndjson', communications: 'Communication.ndjson' };

/** @throws CasetallyError 'file-unwritable' where one of the files is there: somebody may have worked on it. */
export function refuseDrafts(folder: string): void {
  const there = Object.values(FILES)
    .map(name => join(folder, name))
    .find(path => existsSync(path));
  if (there !== undefined)
    throw new CasetallyError(
      'file-unwritable',
      `${there} is there already, and is not written over: move it away, or name another folder.`,
    );
}

/**
 * Writes who is to be thought of, and drafts of a Flag and a Communication for each, to files for their owner only.
 * Nothing is sent. @returns the names of the files.
 */
export async function writeDrafts(
  folder: string,
  affected: readonly Affected[],
  namespace: string,
): Promise<readonly string[]> {
  refuseDrafts(folder);
  const drafts = affected.map(one => recallDraft(one, namespace));
  const ndjson = (resources: readonly (object | undefined)[]) =>
    resources.flatMap(one => (one ? [`${JSON.stringify(one)}\n`] : [])).join('');
  await writeAll(
    folder,
    {
      [FILES.contacts]: csv([HEAD, ...affected.map(contactOf)]),
      [FILES.flags]: ndjson(drafts.map(({ flag }) => flag)),
      [FILES.communications]: ndjson(drafts.map(({ communication }) => communication)),
    },
    { mode: 0o600 },
  );
  return Object.values(FILES);
}

const HEAD = [
  'decided',
  'patient',
  'system',
  'other numbers',
  'answer',
  'not known',
  'use',
  'what',
  'identifier',
  'lot',
  'serial',
  'placed',
  'until',
  'lines',
];

/** The first column is for the person who decides. */
function contactOf({ hit, numbers, lines }: Affected): (string | undefined)[] {
  const { use, answer, unknown } = hit;
  const [number, ...others] = numbers;
  return [
    '',
    number?.value,
    number?.system,
    others.map(({ system, value }) => `${system}|${value}`).join(' '),
    answerText[answer],
    unknown.join(', '),
    use.id,
    use.name,
    use.di,
    use.lot,
    use.serial,
    use.placed,
    use.ended,
    lines.join(' '),
  ];
}
