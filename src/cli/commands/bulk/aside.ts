import { closeSync, fchmodSync, fsyncSync, openSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { CasetallyError, reason } from '../../../findings/errors.js';
import { type Finding, findingRowsIn } from '../../../findings/finding.js';
import type { Language } from '../../../findings/languages.js';

/** The file of what was set aside in one run; it holds names of files and patient data, and only its owner reads it. */
export interface AsideFile {
  readonly path: string;
  add(name: string, findings: readonly Finding[]): void;
  /** Ends it; a file without a line is taken away. */
  close(): void;
}

/** Begins the file anew: whatever was set aside before is tried again by this run. */
export function openAside(folder: string, language: Language | undefined): AsideFile {
  const path = join(folder, 'set-aside.ndjson');
  const guarded = <T>(work: () => T): T => {
    try {
      return work();
    } catch (error) {
      throw new CasetallyError('file-unwritable', `${path} cannot be written: ${reason(error)}.`, {
        cause: error,
      });
    }
  };
  const rows = findingRowsIn(language);
  // What lay there may be a link, or readable by others.
  const file = guarded(() => {
    rmSync(path, { force: true });
    const made = openSync(path, 'wx', 0o600);
    fchmodSync(made, 0o600);
    return made;
  });
  let lines = 0;
  return {
    path,
    add: (name, findings) =>
      guarded(() => {
        writeSync(file, `${JSON.stringify({ record: name, findings }, rows)}\n`);
        lines += 1;
      }),
    close: () =>
      guarded(() => {
        if (lines > 0) fsyncSync(file);
        closeSync(file);
        if (lines === 0) rmSync(path, { force: true });
      }),
  };
}
