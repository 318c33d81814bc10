import { mkdir, open, readdir, readFile, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { CasetallyError, reason } from '../../../findings/errors.js';
import { sha256 } from '../../../registry/digest.js';
import type { BatchRow } from '../../../registry/store/submissions.js';
import type { AskOutcome, FoundAnswer, PutOutcome, Transport } from './transport.js';

/** Largest answer that is read. */
const LARGEST = 64 * 1024 * 1024;

/** A folder that the registry takes batches from, and one that it puts answers in. */
export class FolderTransport implements Transport {
  readonly #folder: string;
  readonly #answers: string | undefined;
  readonly #file: string;

  /** @param file name of the file of a batch, with `{batch}` for its number */
  constructor(folder: string, answers: string | undefined, file: string) {
    this.#folder = folder;
    this.#answers = answers;
    this.#file = file;
  }

  async put(batch: BatchRow, content: string): Promise<PutOutcome> {
    const path = this.#path(batch);
    try {
      await mkdir(this.#folder, { recursive: true });
      const there = await textOf(path);
      if (there !== undefined && sha256(there) !== batch.manifest.sha256)
        return { kind: 'refused', reason: `${path} is there already, and is another file.` };
      // The manifest is there before what it describes; a file is there whole or not at all.
      await whole(join(this.#folder, `${batch.id}.manifest.json`), `${JSON.stringify(batch.manifest)}\n`);
      await whole(path, content);
      return { kind: 'sent' };
    } catch (error) {
      return { kind: 'not sent', reason: `${this.#folder} cannot be written: ${reason(error)}.` };
    }
  }

  /** What the registry took away already comes again under its own name and with the same bytes. */
  async ask(batch: BatchRow): Promise<AskOutcome> {
    const there = await textOf(this.#path(batch));
    const same = there !== undefined && sha256(there) === batch.manifest.sha256;
    return same ? { kind: 'sent' } : { kind: 'not arrived' };
  }

  async answers(waiting: readonly BatchRow[]): Promise<readonly FoundAnswer[]> {
    if (this.#answers === undefined) return [];
    const found: FoundAnswer[] = [];
    try {
      for (const entry of (await readdir(this.#answers, { withFileTypes: true })).toSorted((a, b) =>
        a.name < b.name ? -1 : 1,
      )) {
        if (!entry.isFile() || entry.name.startsWith('.')) continue;
        const from = join(this.#answers, entry.name);
        const text = await textOf(from);
        const batch = waiting.find(({ id }) => entry.name.includes(id))?.id;
        if (text !== undefined) found.push({ from, text, ...(batch !== undefined && { batch }) });
      }
    } catch (error) {
      throw new CasetallyError(
        'file-unreadable',
        `the folder of answers ${this.#answers} cannot be read: ${reason(error)}.`,
        { cause: error },
      );
    }
    return found;
  }

  #path({ id }: BatchRow): string {
    return join(this.#folder, this.#file.replaceAll('{batch}', id));
  }
}

async function textOf(path: string): Promise<string | undefined> {
  try {
    const bytes = await readFile(path);
    return bytes.byteLength > LARGEST ? undefined : bytes.toString('utf8');
  } catch {
    return undefined;
  }
}

/** Writes a file beside its place, and moves it there once it is on disk. */
async function whole(path: string, text: string): Promise<void> {
  const staging = `${path}.part`;
  const file = await open(staging, 'w', 0o600);
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
  await rename(staging, path);
}
