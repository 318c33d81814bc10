import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { CasetallyError } from '../../findings/errors.js';
import { compileTemplates, type TemplateSources, type Templates } from './templates.js';

/**
 * Reads and compiles the templates of a folder: an edge, called once at the start. A later folder overrides
 * templates of the same name in an earlier one.
 * @param folders paths or file addresses; only folders that an administrator writes
 */
export function loadTemplates(...folders: readonly string[]): Templates {
  return compileTemplates(loadSources(...folders));
}

/** Reads the templates of folders without compiling them; a later folder overrides an earlier one. */
export function loadSources(...folders: readonly string[]): TemplateSources {
  return new Map(folders.flatMap(read));
}

function read(folder: string): [string, string][] {
  try {
    return readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter(entry => entry.isFile() && /\.(?:hbs|ya?ml|json)$/.test(entry.name))
      .map((entry): [string, string] => {
        const path = join(entry.parentPath, entry.name);
        const name = relative(folder, path)
          .split(sep)
          .join('/')
          .replace(/\.hbs$/, '');
        return [name, readFileSync(path, 'utf8')];
      })
      .sort(([a], [b]) => (a < b ? -1 : 1));
  } catch (cause) {
    throw new CasetallyError('file-unreadable', `The template folder '${folder}' cannot be read.`, { cause });
  }
}
