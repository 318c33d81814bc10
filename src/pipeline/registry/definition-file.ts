import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { parse } from 'yaml';
import { CasetallyError, reason } from '../../findings/errors.js';
import { definitionSchema, type RegistryDefinition } from '../../registry/definition/schema.js';
import { sha256 } from '../../registry/digest.js';

/** A definition as it was read from its file. */
export interface ReadDefinition {
  readonly definition: RegistryDefinition;
  /** SHA-256 of the file. */
  readonly sha256: string;
}

/**
 * Reads the definition of a registry, YAML or JSON.
 * @param folder of the site configuration, where a relative path starts
 * @throws CasetallyError 'file-unreadable' or 'settings-invalid', which names each field that is wrong.
 */
export async function readDefinition(file: string, folder: string): Promise<ReadDefinition> {
  const path = resolve(folder, file);
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (cause) {
    throw new CasetallyError(
      'file-unreadable',
      `the definition ${path} cannot be read: ${reason(cause)}. A relative path starts at the folder of the site configuration.`,
      { cause },
    );
  }
  let data: unknown;
  try {
    data = parse(text, { maxAliasCount: 100 });
  } catch (cause) {
    throw new CasetallyError('settings-invalid', `the definition ${path} is no YAML: ${reason(cause)}.`, {
      cause,
    });
  }
  const read = definitionSchema.safeParse(data);
  if (read.success) return { definition: read.data, sha256: sha256(text) };
  const wrong = read.error.issues.map(issue => `${issue.path.join('.') || 'the file'}: ${issue.message}`);
  throw new CasetallyError(
    'settings-invalid',
    `the definition ${path} cannot be used. ${wrong.slice(0, 10).join('; ')}.`,
  );
}
