import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { CasetallyError } from '../../findings/errors.js';
import { openDefinitions } from './container.js';
import { Definitions } from './definitions.js';

/** Where the compiled file lies, from `src` and from `dist` alike. */
export const definitionsPath: string = fileURLToPath(
  new URL('../../../profiles/compiled/definitions.bin', import.meta.url),
);

/**
 * Opens the compiled definitions: those shipped with Casetally (R4, terminology, extensions,
 * International Patient Summary), or other compiled bytes or file. Reads a file: call it at the edge.
 */
export function loadDefinitions(source: string | Uint8Array = definitionsPath): Definitions {
  if (typeof source !== 'string') return new Definitions([openDefinitions(source)]);
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(source);
  } catch (cause) {
    throw new CasetallyError(
      'definitions-missing',
      `The definitions file ${source} cannot be read; run "npm run build:definitions".`,
      { cause },
    );
  }
  return new Definitions([openDefinitions(bytes)]);
}
